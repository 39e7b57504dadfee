import Link from 'next/link';
import type { Speech } from '../messages/texts';
import type { Report } from '../view/read-report';
import { viewHref } from '../view/view';

/** On the page of an older release: that there is a newer one, and the way to the same view of it. */
export function ReleaseNote({
  speech: { texts, language },
  report: { head, view, newer },
}: {
  speech: Speech;
  report: Report;
}) {
  if (newer === null || newer <= head.number) return null;
  return (
    <p className="release-note" role="status">
      {texts.layers.releases.newer(head.number, newer)}{' '}
      <Link href={viewHref(language, { ...view, release: newer })} prefetch={false}>
        {texts.layers.releases.toNewest}
      </Link>
    </p>
  );
}
