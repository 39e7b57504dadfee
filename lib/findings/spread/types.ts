import type { PlaceKey } from '@/lib/geography/types';
import type { Knox } from '@/lib/stats/space-time/knox';
import type { Design, Eppo, Fips, Group, Season } from '@/lib/vocabulary/terms';
import type { FirstDetection, MatchedChange, SpeedOfSpread, Trend } from '../types';
import type { CropExposure, LookNext } from './look-next/types';

/** What of a region all tasks share: one object, so that it is read and sent once. */
export interface SpreadGround {
  /** All counties, and of each those it touches, its middle in degrees, and its district, by index. */
  counties: readonly Fips[];
  neighbours: readonly (readonly number[])[];
  lon: readonly number[];
  lat: readonly number[];
  /** km². */
  areas: readonly number[];
  districtOf: readonly (number | null)[];
  districts: readonly PlaceKey[];
  /** How sentences name them. */
  countyNames: readonly string[];
  districtNames: readonly string[];
}

/** Which spread: one species × group, and how its fields were chosen (null: all designs together). */
export interface SpreadKey {
  species: Eppo;
  group: Group;
  design: Design | null;
}

/** Everything that the methods look at: plain data, so that another thread can be handed it. Private. */
export interface SpreadTask extends SpreadKey {
  kind: 'spread';
  ground: SpreadGround;
  /** Closed seasons, each year from the first with a result on. */
  seasons: Season[];
  /** One for each population tested: row of its season, its county and sender by index, and whether it was resistant. */
  populations: { season: number[]; county: number[]; sender: number[]; resistant: number[] };
  /** The season to look at next. */
  next: Season;
  /** Counties with a find known from before the programme, or from outside it. */
  foundBefore: Fips[];
  exposure: CropExposure | null;
  speciesName: string;
  seed: number;
}

/** Do new finds lie near earlier ones? */
export interface Nearness {
  kind: 'nearness';
  verdict: 'near' | 'no sign' | 'too little found';
  /** Counties found new after a clean record; those with an earlier find next door, and as many were to be expected. */
  newFinds: number;
  observed: number;
  expected: number;
  /** One-sided, exact; mid-p beside it. */
  p: number;
  midP: number;
  oddsRatio: number | null;
  low: number | null;
  high: number | null;
  /** Mean distance to the nearest earlier find, and its mean where who is new is dealt out anew; km. */
  distance: { observed: number | null; expected: number | null; p: number };
  /** How many times as often a clean county with an earlier find next door was found new, tests being equal. */
  hazard: { ratio: number; low: number; high: number; p: number; fitP: number | null } | { reason: string };
  sentence: string;
}

/** Do finds come together in space and time, beyond where and when was tested? */
export interface Togetherness {
  kind: 'togetherness';
  /** One population for each sender, county and season. */
  tested: number;
  knox: Knox | null;
  /** Correlation of nearness in space and in time, times moved among counties tested in the same seasons. */
  mantel: { r: number | null; p: number } | null;
  sentence: string;
}

/** A county without a find: what its newest tests still allow. */
export interface CountyReassurance {
  county: Fips;
  /** In the seasons looked at. */
  tested: number;
  lastTested: Season | null;
  /** One-sided 95 % upper limit of the share. */
  upper: number;
  /** How many more, all clean, would bring it to a tenth or below. */
  more: number;
}

/** Published simple estimates, km a season: descriptive, for they take the season of a first find for that of arrival. */
export interface SimpleSpeeds {
  /** Distance of first finds from the front's origin on their season, by least squares, and the inverse of the inverse. */
  leastSquares: number;
  inverse: number | null;
  throughFirst: number;
  /** Slope of the line below which nine tenths of the finds lie. */
  leadingEdge: number;
  /** Radius of a disc as large as all counties found so far, by season. */
  rootArea: number;
}

export interface SpreadAnalysis extends SpreadKey {
  kind: 'spread';
  seed: number;
  /** First and last closed season; null where none is closed. */
  seasons: [Season, Season] | null;
  tested: number;
  resistant: number;
  /** By county and by district. */
  firstDetections: FirstDetection[];
  nearness: Nearness;
  speed: SpeedOfSpread;
  /** Beside a speed that is told; null where none is. */
  simpleSpeeds: SimpleSpeeds | null;
  togetherness: Togetherness;
  trend: Trend;
  /** Two-sided p of a trend over all populations, allowing for several of one sender; null where it cannot be told. */
  trendBySenders: { p: number; designEffect: number | null } | null;
  change: MatchedChange | null;
  /** Of the newest closed seasons. */
  reassurance: { seasons: [Season, Season]; counties: CountyReassurance[] } | null;
  lookNext: LookNext | null;
}
