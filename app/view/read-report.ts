import type { PublicDatabase } from '@/db/clients/public';
import {
  findings,
  type ListedRelease,
  latestRelease,
  releasedCells,
  releasedStatuses,
  releaseErrata,
} from '@/db/repositories/published';
import type { Finding } from '@/lib/findings/types';
import { findAreas } from '@/lib/geography/areas';
import type { AreaTable, Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { orUnreachable } from './or-unreachable';
import { type Misfit, type Parameters, parseView } from './parse-view';
import { type PlaceNumbers, placeNumbers } from './place-numbers';
import { areaOf, areaPlaces, districtPlaces, findPlace, lineage, type Place } from './places';
import { type CellIndex, indexCells } from './released';
import type { View } from './view';

/** All that the page shows, from one release. */
export interface Report {
  head: ReleaseHead;
  region: Region;
  view: View;
  misfits: Misfit[];
  /** The places of the map and the table, in the order of the table. */
  places: PlaceNumbers[];
  /** The place that was asked for. */
  place: Place;
  /** From the region down to that place, or to the area that it is counted in. */
  chosen: PlaceNumbers[];
  /** How counties are counted together on this map. */
  areas: AreaTable | null;
  /** Released cells of the pair, for the trends. */
  cells: CellIndex;
  findings: Finding[];
  /** What was found wrong with the release since. */
  errata: ListedRelease['errata'];
}

export type Reading = { state: 'ready'; report: Report } | { state: 'empty' } | { state: 'unreachable' };

/**
 * Reads what an address asks for from the newest release, through the public role. A database that does not answer is
 * a state of the page; any other error is thrown.
 */
export async function readReport(parameters: Parameters): Promise<Reading> {
  return orUnreachable(async () => read(publicDatabase(), parameters));
}

async function read(db: PublicDatabase, parameters: Parameters): Promise<Reading> {
  const head = await latestRelease(db);
  if (!head || head.pairs.length === 0) return { state: 'empty' };
  return { state: 'ready', report: await reportOf(db, head, parameters) };
}

/** All that a page shows of one release, through the public role. */
export async function reportOf(
  db: PublicDatabase,
  head: ReleaseHead,
  parameters: Parameters,
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
  const numbers = (place: Place) => placeNumbers(cells, statuses, view.window, place);
  const window = view.window === 'all' ? head.windows.at(-1) : view.window;
  const areas = window ? findAreas(head.areas, view.species, window.first) : null;
  const all = view.by === 'county' ? areaPlaces(region, areas) : districtPlaces(region);
  const place = findPlace(region, view.place);
  const chosen = lineage(region, areaOf(region, areas, place)).map(numbers);
  return {
    ...{ head, region, view, misfits, place, chosen, areas, cells, errata },
    places: all.map(numbers),
    findings: found,
  };
}
