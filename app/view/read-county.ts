import type { PublicDatabase } from '@/db/clients/public';
import { findings, latestRelease, releasedCells, releasedStatuses } from '@/db/repositories/published';
import type { FirstDetection, MatchedChange } from '@/lib/findings/types';
import { findAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { reassurance } from '@/lib/stats/reassurance';
import type { Fips, Pair, Period, PlaceStatus } from '@/lib/vocabulary/terms';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { countySlug } from './county-slug';
import { orUnreachable } from './or-unreachable';
import { type PlaceNumbers, placeNumbers } from './place-numbers';
import { areaOf, findPlace, type Place } from './places';
import { indexCells } from './released';

/** What one release shows of one weed and group in and around a county. */
export interface CountyLine {
  pair: Pair;
  /** Of the county, or of the area that it is counted in, in the newest window. */
  numbers: PlaceNumbers;
  district: PlaceNumbers | null;
  /** The newest first detection of the county, its area or its district. */
  first: FirstDetection | null;
  /** Places next door, and in how many of them it is confirmed in the newest window. */
  nextDoor: { places: number; confirmed: number };
  /** Where the numbers are public and none is resistant. */
  clean: { upper: number; more: number } | null;
}

export interface CountyReport {
  head: ReleaseHead;
  county: Place;
  district: Place | null;
  window: Period;
  /** Confirmed first, then clean, then without numbers; those not screened here at all are left out. */
  lines: CountyLine[];
  /** Pairs screened somewhere in the region and not here. */
  notScreened: Pair[];
  /** Of the district or state, between the last two closed seasons. */
  changes: MatchedChange[];
}

export type CountyReading =
  | { state: 'ready'; report: CountyReport }
  | { state: 'unknown'; head: ReleaseHead; region: Region }
  | { state: 'empty' }
  | { state: 'unreachable' };

/** What the newest release shows of a county, asked for by its FIPS code or its name as `ness-ks`. */
export async function readCounty(asked: string): Promise<CountyReading> {
  return orUnreachable(async () => countyOf(publicDatabase(), asked));
}

/** The same from a database that is open. */
export async function countyOf(
  db: PublicDatabase,
  asked: string,
): Promise<Exclude<CountyReading, { state: 'unreachable' }>> {
  const head = await latestRelease(db);
  const window = head?.windows.at(-1);
  if (!head || !window) return { state: 'empty' };
  const region = regionOf(head);
  const own = region.counties.find((one) => one.fips === asked || countySlug(one) === asked.toLowerCase());
  if (!own) return { state: 'unknown', head, region };
  const county = findPlace(region, own.fips);
  const told = [];
  for (const pair of head.pairs) told.push(await lineOf({ db, head, region, window, county }, pair));
  const lines = told.map(({ line }) => line);
  return {
    state: 'ready',
    report: {
      ...{ head, county, window },
      district: county.district ? findPlace(region, county.district) : null,
      lines: lines
        .filter(({ numbers }) => numbers.status !== 'not screened')
        .sort((a, b) => ORDER.indexOf(a.numbers.status) - ORDER.indexOf(b.numbers.status)),
      notScreened: lines.filter(({ numbers }) => numbers.status === 'not screened').map(({ pair }) => pair),
      changes: told.flatMap(({ change }) => (change ? [change] : [])),
    },
  };
}

const ORDER: readonly PlaceStatus[] = [
  'confirmed',
  'none confirmed',
  'no public information',
  'not screened',
];

interface Setting {
  db: PublicDatabase;
  head: ReleaseHead;
  region: Region;
  window: Period;
  county: Place;
}

async function lineOf({ db, head, region, window, county }: Setting, pair: Pair) {
  const [released, statuses, found] = await Promise.all([
    releasedCells(db, head.number, pair),
    releasedStatuses(db, head.number, pair),
    findings(db, head.number, pair),
  ]);
  const cells = indexCells(released);
  const areas = findAreas(head.areas, pair.species, window.first);
  const here = areaOf(region, areas, county);
  const numbersOf = (place: Place) => placeNumbers(cells, statuses, window, place);
  const numbers = numbersOf(here);
  const beside = new Map(
    neighboursOf(region, county.key).map((fips) => {
      const place = areaOf(region, areas, findPlace(region, fips));
      return [place.key, numbersOf(place).status];
    }),
  );
  beside.delete(here.key);
  const places = [here.key, county.key, county.district];
  const first = found
    .filter((one): one is FirstDetection => one.kind === 'first detection' && places.includes(one.place))
    .sort((a, b) => places.indexOf(a.place) - places.indexOf(b.place))[0];
  const { estimate } = numbers;
  const clean = estimate && estimate.tested > 0 ? reassurance(estimate.resistant, estimate.tested) : null;
  const line: CountyLine = {
    ...{ pair, numbers, clean, first: first ?? null },
    district: county.district ? numbersOf(findPlace(region, county.district)) : null,
    nextDoor: {
      places: beside.size,
      confirmed: [...beside.values()].filter((status) => status === 'confirmed').length,
    },
  };
  const change = found.find((one): one is MatchedChange => one.kind === 'matched change');
  return { line, change: change && change.oddsRatio !== null ? change : null };
}

function neighboursOf({ counties, neighbours }: Region, fips: Fips): Fips[] {
  const at = counties.findIndex((county) => county.fips === fips);
  return neighbours[at]!.map((other) => counties[other]!.fips);
}
