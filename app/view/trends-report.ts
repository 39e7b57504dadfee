import type { CropCell, MultipleCell, ReleasedCell } from '@/lib/disclosure/types';
import type { EffortBar } from '@/lib/figures/bars-figure';
import type { PanelWindow } from '@/lib/figures/panel-figure';
import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { Finding, FirstDetection, MatchedChange, Trend } from '@/lib/findings/types';
import { countiesOf, findAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import type { Pair, Period, PlaceStatus } from '@/lib/vocabulary/terms';
import type { ShownRelease } from './asked-release';
import { countLooks } from './count-looks';
import { cropPanels, type StateCrops } from './crop-panels';
import { type MultipleRow, multipleRows } from './multiple-rows';
import type { Misfit } from './parse-view';
import { type Estimate, estimate, placeNumbers } from './place-numbers';
import { areaPlaces, districtPlaces, type Place, regionPlace, statePlaces } from './places';
import { type CellIndex, indexCells, releasedOver } from './released';
import { seriesOf } from './series';

/** What a window shows of where it was found. */
export interface WindowFound {
  window: Period;
  /** Counties by the look of the place that each is counted in. */
  counties: Record<PlaceStatus, number>;
  districts: Record<PlaceStatus, number>;
  /** First detections of districts (of states where there are none) in the window. */
  first: FirstDetection[];
}

/** One place of the small charts. */
export interface Panel {
  place: Place;
  points: TrendPoint[];
  windows: PanelWindow[];
}

/** A state, and its districts by their looks in the newest window; without districts the state alone. */
export interface PanelPart {
  state: Panel;
  districts: Panel[];
  looks: Record<PlaceStatus, number>;
}

/** A place with public numbers in both seasons of a comparison. */
export interface MatchedPlace {
  place: Place;
  from: Estimate;
  to: Estimate;
}

/** What one release shows of a weed and group over its seasons. */
export interface TrendsReport extends ShownRelease {
  region: Region;
  pair: Pair;
  /** The region, a state or a district. */
  place: Place;
  misfits: Misfit[];
  points: TrendPoint[];
  effort: EffortBar[];
  /** Oldest first. */
  found: WindowFound[];
  /** The chosen state, or that of the chosen district, or all. */
  parts: PanelPart[];
  /** Of the same states; empty for a release without that table. */
  crops: StateCrops[];
  change: MatchedChange | null;
  matched: MatchedPlace[];
  trend: Trend | null;
  /** Of the weed, window by window, in the region or state that is chosen or holds the district. */
  multiple: MultipleRow[];
  /** Every weed and group in the whole region. */
  overview: { pair: Pair; points: TrendPoint[] }[];
  /** The comparison of the last two closed seasons for every weed and group that has one. */
  changes: MatchedChange[];
}

export interface TrendsInput extends ShownRelease {
  region: Region;
  pair: Pair;
  place: Place;
  misfits: Misfit[];
  /** All cells of the pair. */
  cells: readonly ReleasedCell[];
  /** Cells of the region for all pairs. */
  wide: readonly ReleasedCell[];
  findings: readonly Finding[];
  multipleCells: readonly MultipleCell[];
  cropCells: readonly CropCell[];
  changes: MatchedChange[];
}

export function trendsReport({
  cells,
  wide,
  findings,
  multipleCells,
  cropCells,
  ...input
}: TrendsInput): TrendsReport {
  const { head, region, place } = input;
  const index = indexCells(cells);
  const change = findings.find((one): one is MatchedChange => one.kind === 'matched change') ?? null;
  const points = seriesOf(index, head, place);
  return {
    ...input,
    points,
    effort: points.map((point) => effortOf(index, place, point)),
    found: head.windows.map((window) => foundIn(window, index, findings, input)),
    parts: panelParts(index, head, region, place),
    crops: cropPanels(cropCells, region, head, place.state),
    change,
    matched: change ? matchedPlaces(index, region, change) : [],
    trend: findings.find((one): one is Trend => one.kind === 'trend') ?? null,
    multiple: multipleRows(
      multipleCells.filter((cell) => cell.place === (place.state ?? 'region')),
      region,
    ),
    overview: head.pairs.map((pair) => {
      const own = wide.filter(({ species, group }) => species === pair.species && group === pair.group);
      return { pair, points: seriesOf(indexCells(own), head, regionPlace(region)) };
    }),
  };
}

function effortOf(index: CellIndex, { kind, key }: Place, point: TrendPoint): EffortBar {
  const { season, withheld, unfinished, tested } = point;
  const own = index
    .get(`${kind}|${key}`)
    ?.find(({ period: { first, last } }) => first === season && last === season);
  return {
    season,
    withheld,
    unfinished,
    tested,
    received: withheld ? null : (own?.receipt?.received ?? null),
  };
}

function foundIn(
  window: Period,
  index: CellIndex,
  findings: readonly Finding[],
  { head, region, pair }: Pick<TrendsInput, 'head' | 'region' | 'pair'>,
): WindowFound {
  const status = (place: Place) => placeNumbers(index, [], window, place).status;
  const parts = partsOf(region, regionPlace(region));
  const areas = findAreas(head.areas, pair.species, window.first);
  return {
    window,
    counties: countLooks(
      areaPlaces(region, areas).flatMap((place) => countiesOf(place.key).map(() => status(place))),
    ),
    districts: countLooks(parts.map(status)),
    first: findings.filter(
      (one): one is FirstDetection =>
        one.kind === 'first detection' &&
        one.placeKind === parts[0]?.kind &&
        one.period.first >= window.first &&
        one.period.last <= window.last,
    ),
  };
}

function partsOf(region: Region, { state }: Place): Place[] {
  const districts = districtPlaces(region).filter((part) => state === null || part.state === state);
  return districts.length > 0 ? districts : statePlaces(region);
}

function panelParts(index: CellIndex, head: ReleaseHead, region: Region, chosen: Place): PanelPart[] {
  const window = head.windows.at(-1);
  const districts = districtPlaces(region);
  return statePlaces(region)
    .filter(({ key }) => chosen.state === null || key === chosen.state)
    .map((state) => {
      const own = districts.filter((district) => district.state === state.key);
      return {
        state: panelOf(index, head, state),
        districts: own.map((district) => panelOf(index, head, district)),
        looks: countLooks(window ? own.map((place) => placeNumbers(index, [], window, place).status) : []),
      };
    });
}

function panelOf(index: CellIndex, head: ReleaseHead, place: Place): Panel {
  return {
    place,
    points: seriesOf(index, head, place).filter(({ unfinished }) => !unfinished),
    windows: head.windows.map(({ first, last }) => {
      const { status, estimate: told } = placeNumbers(index, [], { first, last }, place);
      const { tested, resistant, low, high } = told ?? NOTHING;
      return { first, last, withheld: status === 'no public information', tested, resistant, low, high };
    }),
  };
}

function matchedPlaces(index: CellIndex, region: Region, { from, to, grain }: MatchedChange): MatchedPlace[] {
  const places = grain === 'district' ? districtPlaces(region) : grain === 'state' ? statePlaces(region) : [];
  return places.flatMap((place) => {
    const [before, after] = [from, to].map((season) => {
      const released = releasedOver(index, place, { first: season, last: season });
      if (released.kind !== 'published' || released.tested === 0) return null;
      return estimate(released.tested, released.resistant);
    });
    return before && after ? [{ place, from: before, to: after }] : [];
  });
}

const NOTHING = { tested: 0, resistant: 0, low: 0, high: 0 };
