import type { Period, Season } from '@/lib/vocabulary/terms';

/**
 * Windows of `length` seasons at fixed places of the calendar, counted from the first season, not overlapping. Only a
 * window whose seasons are all closed is there; seasons left over wait.
 *
 * @returns windows, ascending
 */
export function fixedWindows(
  firstSeason: Season,
  closedSeasons: readonly Season[],
  length: number,
): Period[] {
  const closed = new Set(closedSeasons);
  const latest = Math.max(firstSeason, ...closedSeasons);
  const windows: Period[] = [];
  for (let first = firstSeason; first + length - 1 <= latest; first += length) {
    const seasons = Array.from({ length }, (_, i) => first + i);
    if (seasons.every((season) => closed.has(season))) windows.push({ first, last: first + length - 1 });
  }
  return windows;
}
