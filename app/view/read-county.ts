import type { PublicDatabase } from '@/db/clients/public';
import { chosenCells, findingsAbout, latestRelease, releaseErrata } from '@/db/repositories/published';
import type { ReleasedCell } from '@/lib/disclosure/types';
import type { Finding, FirstDetection, MatchedChange } from '@/lib/findings/types';
import { findAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { ListedRelease } from '@/lib/release/release-list';
import type { ReleaseHead } from '@/lib/release/types';
import { reassurance } from '@/lib/stats/reassurance';
import type { Eppo, Fips, Pair, Period, PlaceStatus } from '@/lib/vocabulary/terms';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { countySlug } from './county-slug';
import { orUnreachable } from './or-unreachable';
import { type PlaceNumbers, placeNumbers } from './place-numbers';
import { areaOf, findPlace, type JointName, type Place } from './places';
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

/** A weed with its groups; all of them are counted in one place. */
export interface CountyWeed {
  species: Eppo;
  /** The county, or the area that it is counted in. */
  place: Place;
  /** Confirmed first, then clean, then without numbers, by group. */
  lines: CountyLine[];
}

export interface CountyReport {
  head: ReleaseHead;
  region: Region;
  county: Place;
  district: Place | null;
  /** Counties that touch it, inside the region. */
  neighbours: Place[];
  window: Period;
  /** Those screened from here, the ones with most confirmed first. */
  weeds: CountyWeed[];
  /** All lines of the weeds: confirmed first, then clean, then without numbers. */
  lines: CountyLine[];
  /** Screened somewhere in the region and not here. */
  notScreened: CountyLine[];
  /** Between the last two closed seasons, in the region's districts or states. */
  changes: MatchedChange[];
  errata: ListedRelease['errata'];
}

export type CountyReading =
  | { state: 'ready'; report: CountyReport }
  | { state: 'unknown'; head: ReleaseHead; region: Region }
  | { state: 'empty' }
  | { state: 'unreachable' };

/**
 * What the newest release shows of a county, asked for by its FIPS code or its name as `ness-ks`.
 *
 * @param joint how several counties are named together
 */
export async function readCounty(asked: string, joint: JointName): Promise<CountyReading> {
  return orUnreachable(async () => countyOf(publicDatabase(), asked, joint));
}

/** The same from a database that is open. */
export async function countyOf(
  db: PublicDatabase,
  asked: string,
  joint: JointName,
): Promise<Exclude<CountyReading, { state: 'unreachable' }>> {
  const head = await latestRelease(db);
  const window = head?.windows.at(-1);
  if (!head || !window) return { state: 'empty' };
  const region = regionOf(head);
  const own = region.counties.find((one) => one.fips === asked || countySlug(one) === asked.toLowerCase());
  if (!own) return { state: 'unknown', head, region };
  const county = findPlace(region, own.fips);
  const placesOf = weedPlaces(head, region, county, window, joint);
  const [cells, findings, errata] = await Promise.all([
    chosenCells(db, head.number, { placeKinds: ['county', 'area', 'district'], period: window }),
    findingsAbout(db, head.number, [
      ...new Set(head.pairs.flatMap(({ species }) => keysOf(placesOf(species), county))),
    ]),
    releaseErrata(db, head.number),
  ]);
  const lines = head.pairs.map((pair) =>
    lineOf({ pair, cells, findings, window, county }, placesOf(pair.species)),
  );
  const screened = lines.filter(({ numbers }) => numbers.status !== 'not screened').sort(byStatus);
  return {
    state: 'ready',
    report: {
      ...{ head, region, county, window, errata, lines: screened },
      district: county.district ? findPlace(region, county.district) : null,
      neighbours: neighboursOf(region, own.fips).map((fips) => findPlace(region, fips)),
      weeds: byWeed(screened),
      notScreened: lines.filter((line) => !screened.includes(line)),
      changes: findings.filter(
        (one): one is MatchedChange => one.kind === 'matched change' && one.oddsRatio !== null,
      ),
    },
  };
}

/** Where the populations of a weed from a county are counted, and those from the counties next door. */
interface WeedPlaces {
  here: Place;
  district: Place | null;
  beside: Place[];
}

function weedPlaces(head: ReleaseHead, region: Region, county: Place, window: Period, joint: JointName) {
  const known = new Map<Eppo, WeedPlaces>();
  return (species: Eppo): WeedPlaces => {
    const kept = known.get(species);
    if (kept) return kept;
    const areas = findAreas(head.areas, species, window.first);
    const placeOf = (fips: Fips) => areaOf(region, areas, findPlace(region, fips), joint);
    const here = placeOf(county.key);
    const beside = new Map(
      neighboursOf(region, county.key)
        .map(placeOf)
        .map((place) => [place.key, place]),
    );
    beside.delete(here.key);
    const district = county.district ? findPlace(region, county.district) : null;
    const places = { here, district, beside: [...beside.values()] };
    known.set(species, places);
    return places;
  };
}

function keysOf({ here }: WeedPlaces, county: Place): string[] {
  return [here.key, county.key, ...(county.district ? [county.district] : [])];
}

interface Setting {
  pair: Pair;
  cells: readonly ReleasedCell[];
  findings: readonly Finding[];
  window: Period;
  county: Place;
}

function lineOf({ pair, cells, findings, window, county }: Setting, places: WeedPlaces): CountyLine {
  const isOwn = (one: Pair) => one.species === pair.species && one.group === pair.group;
  const index = indexCells(cells.filter(isOwn));
  const numbersOf = (place: Place) => placeNumbers(index, [], window, place);
  const numbers = numbersOf(places.here);
  const { estimate } = numbers;
  const keys = keysOf(places, county);
  const first = findings
    .filter((one): one is FirstDetection => one.kind === 'first detection' && isOwn(one))
    .filter(({ place }) => keys.includes(place))
    .sort((a, b) => keys.indexOf(a.place) - keys.indexOf(b.place))[0];
  return {
    ...{ pair, numbers, first: first ?? null },
    clean: estimate && estimate.tested > 0 ? reassurance(estimate.resistant, estimate.tested) : null,
    district: places.district && numbersOf(places.district),
    nextDoor: {
      places: places.beside.length,
      confirmed: places.beside.filter((place) => numbersOf(place).status === 'confirmed').length,
    },
  };
}

function byWeed(lines: readonly CountyLine[]): CountyWeed[] {
  const weeds = [...new Set(lines.map(({ pair }) => pair.species))].map((species) => {
    const own = lines.filter(({ pair }) => pair.species === species);
    return { species, place: own[0]!.numbers.place, lines: own.sort(byStatus) };
  });
  const confirmed = ({ lines: own }: CountyWeed) =>
    own.filter(({ numbers }) => numbers.status === 'confirmed').length;
  return weeds.sort((a, b) => confirmed(b) - confirmed(a));
}

const ORDER: readonly PlaceStatus[] = [
  'confirmed',
  'none confirmed',
  'no public information',
  'not screened',
];

function byStatus(a: CountyLine, b: CountyLine): number {
  return ORDER.indexOf(a.numbers.status) - ORDER.indexOf(b.numbers.status);
}

function neighboursOf({ counties, neighbours }: Region, fips: Fips): Fips[] {
  const at = counties.findIndex((county) => county.fips === fips);
  return neighbours[at]!.map((other) => counties[other]!.fips);
}
