import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { CellKey, Fact } from '@/lib/cube/types';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { type LadderQuestion, ladder } from '@/lib/disclosure/ladder';
import type { PlaceTree } from '@/lib/disclosure/places';
import { areaOfCounty } from '@/lib/geography/areas';
import type { AreaTable } from '@/lib/geography/types';
import type { Fips, Period, PlaceKey, PlaceKind } from '@/lib/vocabulary/terms';
import { factsByActive, partOf } from './counted-facts';

/** A cell in which a fact counts, and what it counts as there: by active it is what that active showed. */
export interface CellEntry {
  cell: CellKey;
  /** Its `cellKeyText`. */
  text: string;
  fact: Fact;
}

/**
 * The other way round from `ladderCells`: for one fact all cells of the ladder in which it counts. A population's fact about
 * several groups (`multipleFacts`) is a fact of its own.
 *
 * @returns a function of the fact; a fact outside the region or the seasons counts in none. O(tables) for each fact
 */
export function createCellFinder(
  question: LadderQuestion,
  { counties }: Pick<PlaceTree, 'counties'>,
  areas: readonly AreaTable[],
): (fact: Fact) => CellEntry[] {
  const tables = ladder(question).map((table) => ({ ...table, periodsOf: bySeason(table.periods) }));
  const home = new Map(counties.map((county) => [county.fips, county]));
  const joined = areas.map((table) => ({
    ...table,
    areaOf: areaOfCounty(table),
    alone: new Set(table.areas.filter(({ length }) => length === 1).flat()),
  }));
  const placeIn = (placeKind: PlaceKind, { county, species }: Fact, period: Period, isJoined: boolean) => {
    if (!isJoined) return placeOf(placeKind, home.get(county));
    const table = joined.find((one) => one.species === species && one.first === period.first);
    if (!table) return null;
    return placeKind === 'area'
      ? (table.areaOf.get(county) ?? null)
      : table.alone.has(county)
        ? county
        : null;
  };
  const cellsOf = (fact: Fact, actives: readonly Fact[]): Named[] =>
    tables.flatMap(({ placeKind, assays, joined: isJoined, byDesign, by, several, periodsOf }) => {
      if (!assays.includes(fact.assay) || (several ?? false) !== (fact.group === SEVERAL_GROUPS)) return [];
      return (periodsOf.get(fact.season) ?? []).flatMap((period): Named[] => {
        const place = placeIn(placeKind, fact, period, isJoined);
        if (place === null) return [];
        const { species, group, assay } = fact;
        const design = byDesign ? fact.design : null;
        const whole: CellKey = { placeKind, place, period, species, group, assay, design };
        if (!by) return [named(whole, null)];
        if (by === 'active') return actives.map((one, i) => named({ ...whole, part: partOf(by, one) }, i));
        return [named({ ...whole, part: partOf(by, fact) }, null)];
      });
    });
  return remembered(cellsOf);
}

/** A cell, and which of a fact's actives counts in it: null for the fact itself. */
interface Named {
  cell: CellKey;
  text: string;
  active: number | null;
}

function named(cell: CellKey, active: number | null): Named {
  return { cell, text: cellKeyText(cell), active };
}

/**
 * Cells of a fact are asked for again and again: by the batch rule, the insider pass, and for several groups. Facts that
 * are alike in all but who sent them and what they showed lie in the same cells.
 */
function remembered(find: (fact: Fact, actives: readonly Fact[]) => Named[]): (fact: Fact) => CellEntry[] {
  const known = new WeakMap<Fact, CellEntry[]>();
  const alike = new Map<string, Named[]>();
  return (fact) => {
    const found = known.get(fact);
    if (found) return found;
    const actives = factsByActive(fact);
    const { county, season, species, group, assay, design, crop } = fact;
    const own = actives.map((one) => one.actives[0]);
    const key = JSON.stringify([county, season, species, group, assay, design, crop, own]);
    const cells = alike.get(key) ?? find(fact, actives);
    alike.set(key, cells);
    const entries = cells.map(
      ({ cell, text, active }): CellEntry => ({
        cell,
        text,
        fact: active === null ? fact : actives[active]!,
      }),
    );
    known.set(fact, entries);
    return entries;
  };
}

function bySeason(periods: readonly Period[]): Map<number, Period[]> {
  const found = new Map<number, Period[]>();
  for (const period of periods) {
    for (let season = period.first; season <= period.last; season++)
      found.set(season, [...(found.get(season) ?? []), period]);
  }
  return found;
}

function placeOf(
  kind: PlaceKind,
  county: { fips: Fips; state: string; district: string | null } | undefined,
): PlaceKey | null {
  if (!county || kind === 'area') return null;
  if (kind === 'region') return 'region';
  return kind === 'county' ? county.fips : county[kind];
}
