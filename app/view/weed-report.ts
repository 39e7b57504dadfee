import type { ActiveCell, MultipleCell, ReleasedCell } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import type { Region } from '@/lib/geography/types';
import { reassurance } from '@/lib/stats/reassurance';
import type { Eppo, Group, Period, PlaceStatus } from '@/lib/vocabulary/terms';
import { type ActiveTable, activeTables } from './active-tables';
import type { ShownRelease } from './asked-release';
import { countLooks } from './count-looks';
import { type MultipleRow, multipleRows } from './multiple-rows';
import type { Misfit } from './parse-view';
import { type PlaceNumbers, placeNumbers } from './place-numbers';
import { districtPlaces, type Place, regionPlace, statePlaces } from './places';
import { type CellIndex, indexCells } from './released';

/** One group of a weed in the region. */
export interface WeedGroup {
  group: Group;
  numbers: PlaceNumbers;
  /** ISO common names of the actives behind the published numbers, sorted. */
  actives: string[];
  /** How many districts, or states where there are no districts, have which look. */
  looks: Record<PlaceStatus, number>;
  /** Upper limit of the share that none found still allows; null where some were found or nothing is public. */
  upper: number | null;
}

/** A place with its numbers for each group, in the order of the groups. */
export interface WeedRow {
  place: Place;
  numbers: PlaceNumbers[];
}

/** What one release shows of one weed in a window, all groups side by side. */
export interface WeedReport extends ShownRelease {
  region: Region;
  species: Eppo;
  window: Period;
  misfits: Misfit[];
  /** Ascending; empty where the release has nothing of the weed. */
  groups: WeedGroup[];
  /** State by state, each with its districts. */
  states: { state: WeedRow; districts: WeedRow[] }[];
  /** Groups of which several actives were tested. */
  actives: ActiveTable[];
  /** Of the window: the region, then its states; empty for a release without that table. */
  multiple: MultipleRow[];
  findings: Finding[];
}

export interface WeedInput extends ShownRelease {
  region: Region;
  species: Eppo;
  window: Period;
  misfits: Misfit[];
  /** Cells of the window: of the region, its states and its districts. */
  cells: readonly ReleasedCell[];
  activeCells: readonly ActiveCell[];
  multipleCells: readonly MultipleCell[];
  findings: Finding[];
}

export function weedReport({ cells, activeCells, multipleCells, ...input }: WeedInput): WeedReport {
  const { head, region, species, window } = input;
  const groups = head.pairs.filter((pair) => pair.species === species).map(({ group }) => group);
  const indices = groups.map((group) =>
    indexCells(cells.filter((cell) => cell.species === species && cell.group === group)),
  );
  const rowOf = (place: Place): WeedRow => ({
    place,
    numbers: indices.map((index) => placeNumbers(index, [], window, place)),
  });
  const districts = districtPlaces(region).map(rowOf);
  const states = statePlaces(region).map((state) => ({
    state: rowOf(state),
    districts: districts.filter(({ place }) => place.state === state.key),
  }));
  const parts = districts.length > 0 ? districts : states.map(({ state }) => state);
  const whole = rowOf(regionPlace(region));
  return {
    ...input,
    states,
    actives: activeTables(activeCells, region, window),
    multiple: multipleRows(
      multipleCells.filter(({ period: { first, last } }) => first === window.first && last === window.last),
      region,
    ),
    groups: groups.map((group, i) => ({
      group,
      numbers: whole.numbers[i]!,
      actives: activesIn(indices[i]!),
      looks: countLooks(parts.map(({ numbers }) => numbers[i]!.status)),
      upper: upperOf(whole.numbers[i]!),
    })),
  };
}

function activesIn(index: CellIndex): string[] {
  return [...new Set([...index.values()].flat().flatMap(({ actives }) => actives))].sort();
}

function upperOf({ estimate }: PlaceNumbers): number | null {
  if (!estimate || estimate.tested === 0) return null;
  return reassurance(estimate.resistant, estimate.tested)?.upper ?? null;
}
