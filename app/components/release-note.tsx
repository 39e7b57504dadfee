import Link from 'next/link';
import type { Speech } from '../messages/texts';
import type { ShownRelease } from '../view/asked-release';

/** On the page of an older release: that there is a newer one, and the way to the same view of it. */
export function ReleaseNote({
  speech: { texts },
  shown: { head, newer },
  hrefOf,
}: {
  speech: Speech;
  shown: ShownRelease;
  /** Address of the view in a release. */
  hrefOf: (release: number) => string;
}) {
  if (newer === null) return null;
  return (
    <p className="release-note" role="status">
      {texts.layers.releases.newer(head.number, newer)}{' '}
      <Link href={hrefOf(newer)} prefetch={false}>
        {texts.layers.releases.toNewest}
      </Link>
    </p>
  );
}
