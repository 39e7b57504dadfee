import type { Policy } from '@/lib/disclosure/types';
import type { PublishedShare } from './published-shares';

/** Shares of the screened cells from which a policy withholds nearly everything, or nearly nothing. */
const NEARLY = { everything: 0.9, nothing: 0.01 } as const;

/**
 * One sentence for whoever is to take a policy, or to publish under it, where it makes little sense for these data; else null.
 *
 * @param all by level, as `inAll` gives them
 * @param closed seasons that are closed
 */
export function policyWarning(
  all: readonly PublishedShare[],
  { windowLength }: Pick<Policy, 'windowLength'>,
  closed: number,
): string | null {
  const sum = (name: 'cells' | 'published') => all.reduce((total, line) => total + line[name], 0);
  const windowed = all[0]!;
  const [cells, published] = [sum('cells'), sum('published')];
  const hidden = cells - published;
  const counted = (n: number) => `${n.toLocaleString('en')} of ${cells.toLocaleString('en')} screened cells`;
  if (published === 0) return 'This policy withholds everything: a release under it would be empty.';
  if (windowed.cells === 0) {
    return `No window of ${windowLength} seasons is closed (closed: ${closed}), so nothing would be shown below states.`;
  }
  if (hidden >= NEARLY.everything * cells)
    return `This policy withholds nearly everything: only ${counted(published)} are shown.`;
  if (windowed.published === 0)
    return 'This policy withholds every county and area: the map would be empty below districts.';
  if (hidden === 0) return 'This policy withholds nothing: every screened cell of these data passes it.';
  if (hidden <= NEARLY.nothing * cells)
    return `This policy withholds nearly nothing: ${counted(hidden)} are not shown.`;
  return null;
}
