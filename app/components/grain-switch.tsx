import Link from 'next/link';
import { en } from '../messages/en';
import { type View, viewHref } from '../view/view';

/** County or district: two addresses of the same view. */
export function GrainSwitch({ view }: { view: View }) {
  return (
    <nav className="grain-switch" aria-label={en.grain.label}>
      <span aria-hidden="true">{en.grain.label}</span>
      {(['county', 'district'] as const).map((by) => (
        <Link
          key={by}
          href={viewHref({ ...view, by })}
          scroll={false}
          prefetch={false}
          aria-current={view.by === by ? 'true' : undefined}
        >
          {en.grain[by]}
        </Link>
      ))}
    </nav>
  );
}
