import type { PublicDatabase } from '@/db/clients/public';
import { findings, releasedCells, releasedStatuses, releaseErrata } from '@/db/repositories/published';
import type { Finding, FirstDetection } from '@/lib/findings/types';
import { findAreas } from '@/lib/geography/areas';
import type { AreaTable, Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { askedRelease, type NoneShown, type ShownRelease } from './asked-release';
import type { ClusterPattern } from './cluster-patterns';
import { type MapContent, type MapInput, mapContent } from './map-content';
import { type MapFrame, mapFrames } from './map-frames';
import { orUnreachable } from './or-unreachable';
import { type Misfit, type Parameters, parseView } from './parse-view';
import { type PlaceNumbers, placeNumbers } from './place-numbers';
import {
  areaOf,
  areaPlaces,
  districtPlaces,
  findPlace,
  type JointName,
  lineage,
  type Place,
  statePlaces,
} from './places';
import { type FirstFind, firstFind, recorder } from './record';
import { type CellIndex, indexCells, isSeasonShown } from './released';
import type { View } from './view';

/** All that the page shows, from one release. */
export interface Report extends ShownRelease {
  region: Region;
  view: View;
  misfits: Misfit[];
  /** The places of the grain in the window that is shown, by state and name. */
  places: PlaceNumbers[];
  /** What the map shows of them, by its layer. */
  map: MapContent;
  /** The same map in each of its seasons or windows, to be stepped through. */
  frames: MapFrame[];
  /** The place that was asked for. */
  place: Place;
  /** From the region down to that place, or to the area that it is counted in. */
  chosen: PlaceNumbers[];
  /** The seasons that the last of `chosen` speaks of: of a county the window, where the map shows a single season. */
  placeWindow: View['window'];
  /** What the other layers say of that place. */
  facts: PlaceFacts;
  /** How counties are counted together on this map. */
  areas: AreaTable | null;
  /** Released cells of the pair, for the trends. */
  cells: CellIndex;
  findings: Finding[];
}

/** What layers say of one place beside its counts. */
export interface PlaceFacts {
  first: FirstFind | null;
  /** The release's own finding of it. */
  detection: FirstDetection | null;
  pattern: ClusterPattern | null;
}

export type Reading = { state: 'ready'; report: Report } | NoneShown;

/**
 * Reads what an address asks for from the release that it names, else from the newest one, through the public role. A
 * database that does not answer is a state of the page; any other error is thrown.
 *
 * @param joint how several counties are named together
 */
export async function readReport(parameters: Parameters, joint?: JointName): Promise<Reading> {
  return orUnreachable(async () => read(publicDatabase(), parameters, joint));
}

async function read(db: PublicDatabase, parameters: Parameters, joint?: JointName): Promise<Reading> {
  const asked = await askedRelease(db, parameters);
  if (asked.state !== 'ready') return asked;
  const { head, newer } = asked;
  return { state: 'ready', report: await reportOf(db, head, parameters, { joint, newer }) };
}

interface ReportOptions {
  /** Number of the newest release, where this one is older. */
  newer?: number | null;
  /** How several counties are named together. */
  joint?: JointName;
}

/** All that a page shows of one release, through the public role. */
export async function reportOf(
  db: PublicDatabase,
  head: ReleaseHead,
  parameters: Parameters,
  { newer = null, joint }: ReportOptions = {},
): Promise<Report> {
  const region = regionOf(head);
  const { view, misfits } = parseView(parameters, head, region);
  const [released, statuses, found, errata] = await Promise.all([
    releasedCells(db, head.number, view),
    releasedStatuses(db, head.number, view),
    findings(db, head.number, view),
    releaseErrata(db, head.number),
  ]);
  const cells = indexCells(released);
  const numbers = (place: Place, window: View['window'] = view.window): PlaceNumbers => {
    const isShown = window === 'all' || isSeasonShown(head, cells, place, window);
    return isShown
      ? placeNumbers(cells, statuses, window, place)
      : { place, status: 'no public information', estimate: null };
  };
  const place = findPlace(region, view.place);
  const placeWindow = windowOfPlace(head, view.window, place);
  const window = placeWindow === 'all' ? head.windows.at(-1) : placeWindow;
  const areas = window ? findAreas(head.areas, view.species, window.first) : null;
  const all =
    view.by === 'county'
      ? areaPlaces(region, areas, joint)
      : view.by === 'state'
        ? statePlaces(region)
        : districtPlaces(region);
  const own = areaOf(region, areas, place, joint);
  const chosen = lineage(region, own).map((one) => numbers(one, one === own ? placeWindow : view.window));
  const input = { head, region, cells, findings: found, view, numbers, joint };
  return {
    ...{ head, region, view, misfits, place, chosen, placeWindow, areas, cells, errata, newer },
    facts: placeFacts(input, place, own),
    places: all.map((one) => numbers(one)),
    map: mapContent(input),
    frames: mapFrames(input),
    findings: found,
  };
}

/** A county has no season of its own: of it the window is told that holds the season. */
function windowOfPlace(head: ReleaseHead, window: View['window'], { kind }: Place): View['window'] {
  if (window === 'all' || kind !== 'county') return window;
  return head.windows.find(({ first, last }) => first <= window.first && window.last <= last) ?? 'all';
}

function placeFacts(input: MapInput, place: Place, own: Place): PlaceFacts {
  const clusters = mapContent({ ...input, view: { ...input.view, layer: 'clusters' } });
  const detection = input.findings.find(
    (one): one is FirstDetection => one.kind === 'first detection' && one.place === place.key,
  );
  return {
    first:
      place.kind === 'region'
        ? null
        : firstFind(recorder({ ...input, pair: input.view })(place), Number.POSITIVE_INFINITY),
    detection: detection ?? null,
    pattern: clusters.places.find(({ numbers }) => numbers.place.key === own.key)?.pattern ?? null,
  };
}
