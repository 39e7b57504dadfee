import { MARK_PATH } from './mark-path';

/** The mark: two fence posts, a rail, and a seedling that came up in the row. */
export function Mark() {
  return (
    <svg className="mark-sign" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
      <path d={MARK_PATH} fill="none" stroke="currentColor" strokeWidth="2" strokeLinecap="round" />
    </svg>
  );
}
