import { type Front, frontOf } from '@/lib/figures/front';
import { effortTone, type Fill, lookOf, plainFill, shareTone } from '@/lib/figures/looks';
import type { Clustering, Finding, SpeedOfSpread } from '@/lib/findings/types';
import { findAreas } from '@/lib/geography/areas';
import type { AreaTable, Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import type { Period, PlaceStatus } from '@/lib/vocabulary/terms';
import { grainOfLayer } from './choices';
import { type ClusterPattern, clusterPatterns } from './cluster-patterns';
import type { PlaceNumbers } from './place-numbers';
import { areaPlaces, countyPlaces, districtPlaces, type JointName, type Place, statePlaces } from './places';
import { type FirstFind, firstFind, recorder, statusUntil } from './record';
import type { CellIndex } from './released';
import type { Grain, View } from './view';

/** A place of a map with what its layer says of it. */
export interface MapPlace {
  numbers: PlaceNumbers;
  fill: Fill;
  /** Layers of first finds: when it was first found, where it was. */
  first: FirstFind | null;
  /** Layer of clusters: beside its neighbours. */
  pattern: ClusterPattern | null;
}

/** What a map shows, before any words. */
export interface MapContent {
  /** The grain that it is drawn in; that of a layer may be coarser than the one asked for. */
  grain: Grain;
  /** The seasons that it speaks of; first finds are those up to its end. */
  window: View['window'];
  places: MapPlace[];
  /** How counties are counted together on it. */
  areas: AreaTable | null;
  front: Front | null;
  /** The finding that the layer draws; null for layers that draw counts alone. */
  finding: Clustering | SpeedOfSpread | null;
  /** Why there is nothing to draw but who was screened; null where there is something. */
  silent: 'no verdict' | 'no clusters' | 'choose seasons' | null;
}

export interface MapInput {
  head: ReleaseHead;
  region: Region;
  cells: CellIndex;
  findings: readonly Finding[];
  view: View;
  /** What is public of a place in a window of seasons. */
  numbers: (place: Place, window: View['window']) => PlaceNumbers;
  /** How several counties are named together. */
  joint?: JointName;
}

/** Intervals wider than this, of a scale of 0–1, make a share uncertain: it is drawn in lighter ink. */
export const UNCERTAIN = 0.5;

/** Lower bounds of the classes of populations screened, by grain. */
export const EFFORT_CLASSES: Record<Grain, readonly number[]> = {
  county: [1, 10, 20, 40],
  district: [1, 10, 25, 50],
  state: [1, 50, 100, 250],
};

/** What the map of a view shows, from the cells and findings of its release alone. */
export function mapContent(input: MapInput): MapContent {
  return LAYERS[input.view.layer](input);
}

const LAYERS: Record<View['layer'], (input: MapInput) => MapContent> = {
  share: (input) => counted(input, ({ status, estimate }) => shareFill(status, estimate)),
  effort: (input) => {
    const { by, window } = input.view;
    if (window === 'all') return { ...counted(input, (numbers) => level(numbers)), silent: 'choose seasons' };
    return counted(input, ({ status, estimate }) =>
      estimate ? { tone: effortTone(classOf(estimate.tested, by)), faint: false } : level({ status }),
    );
  },
  found: (input) => firstFinds(input, input.view.by, ({ counted: { kind } }) => kind === 'area'),
  clusters,
  spread,
};

/** Places by their counts in the window that is shown. */
function counted(input: MapInput, fillOf: (numbers: PlaceNumbers) => Fill): MapContent {
  const { head, region, view, numbers, joint } = input;
  const latest = view.window === 'all' ? head.windows.at(-1) : view.window;
  const areas = view.by === 'county' && latest ? findAreas(head.areas, view.species, latest.first) : null;
  const places = placesOf(region, view.by, areas, joint).map((place) => numbers(place, view.window));
  return {
    ...NOTHING_MORE,
    ...{ grain: view.by, window: view.window, areas },
    places: places.map((one) => ({ ...ALONE, numbers: one, fill: fillOf(one) })),
  };
}

/** Places by the window in which resistance was first shown there, up to the end of the chosen one. */
function firstFinds(input: MapInput, grain: Grain, isFaint: (first: FirstFind) => boolean): MapContent {
  const { head, region, cells, view, numbers } = input;
  const record = recorder({ head, region, cells, pair: view });
  const until = view.window === 'all' ? Number.POSITIVE_INFINITY : view.window.last;
  const places = placesOf(region, grain, null).map((place): MapPlace => {
    const entries = record(place);
    const first = firstFind(entries, until);
    // Over all closed seasons the release has a word of its own, which may know more than the public periods.
    const own = numbers(place, 'all').status;
    const whole = view.window === 'all' || view.window.last === head.closedSeasons.at(-1);
    const isTold = whole && own !== 'no public information';
    const status: PlaceStatus = first ? 'confirmed' : isTold ? own : statusUntil(entries, until);
    const fill: Fill = first
      ? { tone: shareTone(4 - findClass(head, first.period)), faint: isFaint(first) }
      : level({ status }, 'confirmed');
    return { ...ALONE, numbers: { place, status, estimate: null }, fill, first };
  });
  return { ...NOTHING_MORE, ...{ grain, window: view.window, areas: null, places } };
}

function clusters(input: MapInput): MapContent {
  const { head, region, findings, view, numbers, joint } = input;
  const window = windowOf(head, view.window);
  const found = findings.find(
    (one): one is Clustering => one.kind === 'clustering' && one.period.first === window?.first,
  );
  const grain: Grain = found?.grain === 'district' ? 'district' : 'county';
  const areas = grain === 'county' && window ? findAreas(head.areas, view.species, window.first) : null;
  const shown = placesOf(region, grain, areas, joint).map((place) => numbers(place, window ?? 'all'));
  const patterns = found ? clusterPatterns(found, shown) : new Map<string, ClusterPattern>();
  const silent =
    !found || found.verdict === 'too little tested'
      ? 'no verdict'
      : found.verdict === 'no sign'
        ? 'no clusters'
        : null;
  return {
    ...NOTHING_MORE,
    ...{ grain, window: window ?? 'all', areas, finding: found ?? null, silent },
    places: shown.map((one) => {
      const pattern = patterns.get(one.place.key) ?? null;
      return {
        ...ALONE,
        numbers: one,
        pattern,
        fill: pattern && one.estimate ? PATTERN_FILL[pattern] : level(one),
      };
    }),
  };
}

function spread(input: MapInput): MapContent {
  const { head, findings, view } = input;
  const found = findings.find((one): one is SpeedOfSpread => one.kind === 'speed') ?? null;
  const until = view.window === 'all' ? Number.POSITIVE_INFINITY : view.window.last;
  // Where nobody can say that it came when it was found, the find is in lighter ink.
  const map = firstFinds(
    input,
    grainOfLayer('spread', view.by),
    ({ how }) => how !== 'new after a clean record',
  );
  const seasons = shownWindows(head).flatMap(({ last }) => (last <= until ? [last] : []));
  const front = found && frontOf(found, seasons);
  return { ...map, front, finding: found };
}

/** The windows that first finds are told apart by: the last four; what is older counts with the first of them. */
export function shownWindows({ windows }: Pick<ReleaseHead, 'windows'>): readonly Period[] {
  return windows.slice(-4);
}

/** Number of the shown window that a first find falls in, from 0 for the oldest. */
function findClass(head: ReleaseHead, { last }: Period): number {
  const windows = shownWindows(head);
  const at = windows.findIndex((window) => last <= window.last);
  return at < 0 ? Math.max(0, windows.length - 1) : at;
}

/** The window of a view, the one that holds its season, or the newest. */
function windowOf(head: ReleaseHead, window: View['window']): Period | undefined {
  if (window === 'all') return head.windows.at(-1);
  return head.windows.find(({ first, last }) => first <= window.first && window.last <= last);
}

function placesOf(region: Region, grain: Grain, areas: AreaTable | null, joint?: JointName): Place[] {
  if (grain === 'state') return statePlaces(region);
  if (grain === 'district') return districtPlaces(region);
  return areas ? areaPlaces(region, areas, joint) : countyPlaces(region);
}

function shareFill(status: PlaceStatus, estimate: PlaceNumbers['estimate']): Fill {
  const fill = plainFill(lookOf(status), estimate?.share ?? null);
  return { ...fill, faint: estimate !== null && estimate.high - estimate.low > UNCERTAIN };
}

/** One ink for all that was screened and is public, whatever was found; or for places of one status alone. */
function level({ status }: Pick<PlaceNumbers, 'status'>, only?: PlaceStatus): Fill {
  const isPublic = only ? status === only : status === 'confirmed' || status === 'none confirmed';
  return isPublic ? { tone: 'level', faint: false } : plainFill(lookOf(status), null);
}

function classOf(tested: number, grain: Grain): number {
  return EFFORT_CLASSES[grain].filter((bound) => tested >= bound).length;
}

export const PATTERN_FILL: Record<ClusterPattern, Fill> = {
  'raised, neighbours raised too': { tone: 'share-4', faint: false },
  'stands out alone': { tone: 'share-3', faint: false },
  'lower, neighbours lower': { tone: 'low-2', faint: false },
  'lower than around it': { tone: 'low-1', faint: false },
  'no sign': { tone: 'level', faint: false },
  'too little tested': { tone: 'level', faint: true },
};

const ALONE = { first: null, pattern: null };
const NOTHING_MORE = { front: null, finding: null, silent: null };
