import { type Period, periodLabel } from '@/lib/vocabulary/terms';

/** The windows of a release as addresses of one page. */
export function WindowLinks({
  label,
  hrefOf,
  windows,
  chosen,
}: {
  label: string;
  /** Address of the page over a window. */
  hrefOf: (window: Period) => string;
  windows: readonly Period[];
  chosen: Period;
}) {
  return (
    <nav className="window-links" aria-label={label}>
      <span aria-hidden="true">{label}</span>
      <ul>
        {windows.map((window) => (
          <li key={window.first}>
            <a href={hrefOf(window)} aria-current={window.first === chosen.first ? 'true' : undefined}>
              {periodLabel(window)}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
