import type { Season } from './terms';

/** The season of a collection date (`2026-09-14`, `2026-09` or `2026`): the calendar year in which seed was collected. */
export function seasonOf(collected: string): Season {
  return Number(collected.slice(0, 4));
}
