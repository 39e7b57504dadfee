import Link from 'next/link';
import type { Speech } from '../messages/texts';
import { type View, viewHref } from '../view/view';

/** County or district: two addresses of the same view. */
export function GrainSwitch({ speech, view }: { speech: Speech; view: View }) {
  const { grain } = speech.texts;
  return (
    <nav className="grain-switch" aria-label={grain.label}>
      <span aria-hidden="true">{grain.label}</span>
      {(['county', 'district'] as const).map((by) => (
        <Link
          key={by}
          href={viewHref(speech.language, { ...view, by })}
          scroll={false}
          prefetch={false}
          aria-current={view.by === by ? 'true' : undefined}
        >
          {grain[by]}
        </Link>
      ))}
    </nav>
  );
}
