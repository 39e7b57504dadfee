import type { ScanPoints } from '../scan/types';

/** What was tested and confirmed resistant at places, season by season. */
export interface SeasonCounts {
  /** Rising, one for each row of the counts, as 2015, 2016, 2018: seasons in which nothing was tested may lack. */
  seasons: ArrayLike<number>;
  places: number;
  /** Populations tested, season × place, row by season: entry `row · places + place`. 0 is “not tested”. */
  tested: Int32Array;
  /** Of them confirmed resistant. */
  resistant: Int32Array;
}

/** Where places lie: degrees on the sphere, distances in km; or a plane of any one unit. */
export type SpreadPoints = ScanPoints;

/** What is known of the arrival at a place, by code. */
export const ARRIVAL = {
  neverTested: 0,
  neverFound: 1,
  /** Found in the first season tested: newly observed; when it came there is unknown. */
  foundAtFirstTest: 2,
  /** Found after at least one season of tests without a find: the only evidence that something has arrived. */
  newAfterClean: 3,
} as const;

/** Rows of `SeasonCounts` by place; −1 where there is none. */
export interface Arrivals {
  /** First season tested. */
  firstTested: Int32Array;
  /** First season with a find. */
  firstFound: Int32Array;
  /** Last season tested before the first find; of all seasons tested where there was no find. */
  lastClean: Int32Array;
  /** Codes of `ARRIVAL`. The arrival at a place `newAfterClean` falls in (lastClean, firstFound]. */
  kind: Uint8Array;
}

/** Places at risk, season by season: one row for each place that could be found new in a season. */
export interface AtRisk {
  /** The rows of season row t are `offsets[t]` … `offsets[t + 1] − 1`. */
  offsets: Int32Array;
  /** Of each row: row of the season, place (rising within a season), populations tested there in it. */
  season: Int32Array;
  place: Int32Array;
  tested: Int32Array;
  /** 1 where the place was found in that season. */
  isNew: Uint8Array;
}
