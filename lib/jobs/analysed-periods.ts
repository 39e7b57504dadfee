import { fixedWindows } from '@/lib/disclosure/windows';
import type { Period, Season } from '@/lib/vocabulary/terms';

/** The windows of releases, what came after the last of them, and everything together. */
export function periodsOf(
  seasons: readonly Season[],
  closed: readonly Season[],
  windowLength: number,
): Period[] {
  const [first, last] = [seasons[0], seasons.at(-1)];
  if (first === undefined || last === undefined) return [];
  const windows = fixedWindows(first, closed, windowLength);
  const since = (windows.at(-1)?.last ?? first - 1) + 1;
  const all = [...windows, ...(since <= last ? [{ first: since, last }] : []), { first, last }];
  return all.filter((one, i) => all.findIndex((o) => o.first === one.first && o.last === one.last) === i);
}
