import type { Cell } from '@/lib/cube/types';

/**
 * Which cells by active are withheld in one district and window, for one pair.
 *
 * Populations tested on two actives count in both, so nothing adds up; but each population of the whole was tested on one
 * active at least, and resistant to one at least where it is resistant to the group. Where the whole is withheld, all its
 * actives are. Else, of two withheld actives each may be anything from hardly any to all of the whole, since the other
 * one can hold what is missing; a single one needs that the published ones alone can hold the whole. So at most one
 * active more is withheld than must be. What areas, counties and seasons of the district show is not touched: any split
 * of the whole among them can be split alike by active.
 *
 * @param actives cells of one place, period and pair by active, each with tested > 0
 * @param whole their whole, or null where it is withheld
 * @param mustHide what the primary rule, an earlier release or the insider pass asks for
 * @param mayHide false where an earlier release showed it
 */
export function withholdActives(
  actives: readonly Cell[],
  whole: Cell | null,
  mustHide: (cell: Cell) => boolean,
  mayHide: (cell: Cell) => boolean,
): Set<Cell> {
  if (whole === null) return new Set(actives);
  const hidden = new Set(actives.filter(mustHide));
  if (hidden.size !== 1) return hidden;
  const shown = actives.filter((cell) => !hidden.has(cell));
  if (canHold(shown, whole)) return hidden;
  const next = shown
    .filter(mayHide)
    .sort((a, b) => a.tested - b.tested || (a.part!.name < b.part!.name ? -1 : 1))[0];
  if (next) hidden.add(next);
  return hidden;
}

/** Whether populations of these actives alone, each of the whole in one at least, can make up the whole. */
function canHold(cells: readonly Cell[], whole: Cell): boolean {
  const measures: readonly ((cell: Cell) => number)[] = [
    ({ resistant }) => resistant,
    ({ resistant, someSurvivors }) => resistant + someSurvivors,
    ({ someSurvivors, susceptible }) => someSurvivors + susceptible,
    ({ susceptible }) => susceptible,
  ];
  return measures.every((of) => cells.reduce((sum, cell) => sum + of(cell), 0) >= of(whole));
}
