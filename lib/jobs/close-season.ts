import { fixedWindows } from '@/lib/disclosure/windows';
import type { Period, Season } from '@/lib/vocabulary/terms';

/** What closing a season would change for the public. */
export interface ClosingConsequence {
  /** Windows that would be complete: their seasons are then shown by county, area and district. */
  completes: Period[];
  /** The window that the season belongs to and that would still wait, with its open seasons; null where none waits. */
  waits: { window: Period; open: Season[] } | null;
}

/**
 * What of the public tables closing a season opens.
 *
 * @param firstSeason where windows are counted from
 * @param windowLength seasons in a window
 */
export function closingConsequence(
  year: Season,
  {
    closed,
    firstSeason,
    windowLength,
  }: { closed: readonly Season[]; firstSeason: Season; windowLength: number },
): ClosingConsequence {
  const before = fixedWindows(firstSeason, closed, windowLength);
  const after = fixedWindows(firstSeason, [...closed, year], windowLength);
  const completes = after.filter(({ first }) => before.every((window) => window.first !== first));
  const first = firstSeason + Math.floor((year - firstSeason) / windowLength) * windowLength;
  const window = { first, last: first + windowLength - 1 };
  const seasons = Array.from({ length: windowLength }, (_, i) => first + i);
  const open = seasons.filter((season) => season !== year && !closed.includes(season));
  return { completes, waits: open.length > 0 ? { window, open } : null };
}
