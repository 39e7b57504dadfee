import type { Highs } from 'highs';
import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import { cellKeyText } from '../cell-order';
import type { PlaceTree } from '../places';
import type { AuditBreach, ReleasedCell, ReleasedCube } from '../types';
import { Attacker } from './attacker';
import { labelOf } from './knowledge';
import type { LinearSystem, Row } from './linear-system';

/**
 * Asks of each published count about several groups whether it could tell on withheld cells of the single groups.
 *
 * A reader can divide such a count among smaller places or seasons, with an unknown share for each: in every part those
 * resistant to two groups or more are at most the resistant of all groups less those of any one, and so on. More in a
 * withheld cell never breaks such a bound. So where some shares that fit the published cells alone add up to the count, it
 * holds whatever the withheld cells are, and tells nothing of them, to no reader, whatever else he knows. Where there
 * are none, it is a breach. One linear program for each count and division that has a withheld cell.
 *
 * Shares by design and by crop are not asked for: inside a state and season such a count says at most that resistances
 * to several groups lie in the same part.
 */
export function unexplained(
  highs: Highs,
  cube: ReleasedCube,
  tree: PlaceTree,
): { breaches: AuditBreach[]; programs: number } {
  const bySpecies = new Map<string, ReleasedCell[]>();
  for (const cell of cube.cells) {
    if (cell.assay !== 'whole plant' || cell.design !== null) continue;
    const own = bySpecies.get(cell.species);
    if (own) own.push(cell);
    else bySpecies.set(cell.species, [cell]);
  }
  const stateOf = statesOf(tree);
  const breaches: AuditBreach[] = [];
  let programs = 0;
  for (const several of cube.further) {
    if (several.group !== SEVERAL_GROUPS || several.counts === null) continue;
    for (const parts of divisions(several, bySpecies.get(several.species) ?? [], stateOf)) {
      if (parts.every((groups) => groups.every(({ counts }) => counts !== null))) continue;
      programs += 1;
      if (isHeld(highs, parts, several.counts)) continue;
      const { tested } = several.counts;
      breaches.push({
        ...{ cell: `${several.species} × several groups, ${labelOf(several)}`, key: cellKeyText(several) },
        ...{ measure: 'tested', low: tested, high: tested, kind: 'too narrow' },
        pair: { species: several.species, group: SEVERAL_GROUPS },
      });
      break;
    }
  }
  return { breaches, programs };
}

/** The state of a state, district, county or area. */
function statesOf({ counties, districts }: PlaceTree): (cell: ReleasedCell) => string | undefined {
  const known = new Map([
    ...counties.map(({ fips, state }) => [fips, state] as const),
    ...districts.map(({ code, state }) => [code, state] as const),
  ]);
  return ({ placeKind, place }) => (placeKind === 'state' ? place : known.get(place.split('+')[0]!));
}

/** Every way in which place and window are divided, as the groups' cells part by part. */
function divisions(
  { placeKind, place, period: { first, last } }: ReleasedCell,
  cells: readonly ReleasedCell[],
  stateOf: (cell: ReleasedCell) => string | undefined,
): ReleasedCell[][][] {
  const found = new Map<string, Map<string, ReleasedCell[]>>();
  for (const cell of cells) {
    const { period } = cell;
    if (period.first < first || period.last > last) continue;
    if (placeKind === 'state' && (cell.placeKind === 'region' || stateOf(cell) !== place)) continue;
    const isSeason = period.first === period.last && first < last;
    if (!isSeason && (period.first !== first || period.last !== last)) continue;
    // Counties by season beside districts by season divide them further.
    const kind = cell.placeKind === 'county' && !isSeason ? 'area' : cell.placeKind;
    const division = `${kind} ${isSeason}`;
    const parts = found.get(division) ?? new Map<string, ReleasedCell[]>();
    found.set(division, parts);
    const part = `${cell.placeKind} ${cell.place} ${period.first}`;
    parts.set(part, [...(parts.get(part) ?? []), cell]);
  }
  return [...found.values()].map((parts) => [...parts.values()]);
}

/** Whether shares that fit the published cells of the parts add up to the count. Three unknowns a part: none, one, several. */
function isHeld(
  highs: Highs,
  parts: readonly (readonly ReleasedCell[])[],
  { tested, resistant, someSurvivors }: NonNullable<ReleasedCell['counts']>,
): boolean {
  const rows: Row[] = [];
  for (const [p, groups] of parts.entries()) {
    const shown = groups.flatMap(({ counts }) => counts ?? []);
    const atMost = (weights: readonly [number, number, number], amounts: readonly number[]) => {
      const columns = [0, 1, 2].filter((c) => weights[c] !== 0);
      rows.push({
        columns: columns.map((c) => 3 * p + c),
        coefficients: columns.map((c) => weights[c]!),
        low: -Infinity,
        high: amounts.reduce((sum, amount) => sum + amount, 0),
      });
    };
    const resistances = shown.map((counts) => counts.resistant);
    const others = shown.map((counts) => counts.tested - counts.resistant);
    atMost([0, 1, 2], resistances);
    atMost([2, 1, 0], others);
    for (const g of shown.length > 0 ? shown.keys() : [0]) {
      const less = <T>(amounts: readonly T[]) => amounts.filter((_, i) => i !== g);
      atMost([0, 0, 1], less(resistances));
      atMost([1, 0, 0], less(others));
      atMost([1, 1, 1], less(shown.map((counts) => counts.tested)));
    }
  }
  for (const [c, count] of [tested - resistant - someSurvivors, someSurvivors, resistant].entries()) {
    const columns = parts.map((_, p) => 3 * p + c);
    rows.push({ columns, coefficients: columns.map(() => 1), low: count, high: count });
  }
  const size = 3 * parts.length;
  const system: LinearSystem = { lower: Array(size).fill(0), upper: Array(size).fill(tested), rows };
  const columns = Array.from({ length: size }, (_, i) => i);
  const attacker = new Attacker(highs, system, { columns, rows });
  const point = attacker.extreme([[0, 1]], 1);
  attacker.dispose();
  return point !== null;
}
