import type { PlaceKey, PlaceKind } from '@/lib/geography/types';
import type { Eppo, Group, Period, Season } from '@/lib/vocabulary/terms';

/**
 * What findings are computed from: a cell whose counts are known to the caller. Withheld and unscreened cells are
 * absent, so that a finding made from released cells cannot depend on a withheld count.
 */
export interface Observation {
  placeKind: PlaceKind;
  place: PlaceKey;
  period: Period;
  species: Eppo;
  group: Group;
  tested: number;
  resistant: number;
}

/**
 * A cell that was screened and whose counts are not known to the caller. That it is withheld is public, its counts
 * are not and have no place here.
 */
export type WithheldCell = Omit<Observation, 'tested' | 'resistant'>;

/** Share of a place with its uncertainty; all shares lie in 0–1. */
export interface ShareEstimate {
  place: PlaceKey;
  tested: number;
  resistant: number;
  share: number;
  /** Wilson 95 % interval. */
  low: number;
  high: number;
  /** Empirical-Bayes share: drawn towards the pairs' mean where few were tested. */
  smoothed: number;
}

/** What a place and its neighbours together show beside the rest of the map, in plain words of our own. */
export type LocalPattern = 'more around here' | 'less around here' | 'no sign' | 'too little tested';

/** A circle of places with more resistant populations than the share of the map lets expect. */
export interface StrongestCircle {
  /** The place in its middle. */
  centre: PlaceKey;
  /** All of its places, ascending. */
  places: PlaceKey[];
  /** From the middle to the point of its farthest place. */
  radiusKm: number;
  tested: number;
  resistant: number;
  expected: number;
  /** Monte Carlo p: allows for all circles that were looked at. */
  p: number;
}

/** The smallest cluster that the testing of a map would have shown four times in five, had there been one. */
export interface Detectable {
  /** Of a typical circle of that size. */
  tested: number;
  places: number;
  radiusKm: number;
  /** Share of resistant that was planted in it, halfway between that of the map and all. */
  shareInside: number;
}

/** Who sent what lies together. Staff only: no release has it. */
export interface MadeOf {
  resistant: number;
  /** Operations with a resistant population in the places of `where`. */
  operations: number;
  /** Resistant populations there that came from the one operation with most of them. */
  largestOperation: number;
}

/** `too little tested`: `reason` says of what. */
export type ClusteringVerdict = 'lie together' | 'no sign' | 'too little tested';

export interface Clustering {
  kind: 'clustering';
  /** At 5 %, by `p`. */
  verdict: ClusteringVerdict;
  /**
   * Chance of a pattern as strong where there is none, allowing for the tests that were asked (Holm): likeness of
   * neighbours (`global`), places with their neighbours (smallest `adjustedP`), strongest circle. null as `global`.
   */
  p: number | null;
  /** How many tests `p` allows for: three, or two where no circle could be looked for. */
  tests: number;
  /** The places that lie together: of the strongest circle where that stands out, else those with more around them. */
  where: PlaceKey[];
  /** Where there is no sign: what this testing could have shown. null where it could have shown no circle at all. */
  detectable: Detectable | null;
  /** Staff only; absent where senders are not given or nothing lies together. */
  madeOf?: MadeOf;
  species: Eppo;
  group: Group;
  period: Period;
  /** `area`: areas and the counties that are one by themselves. */
  grain: 'area' | 'district';
  /** Places that entered (tested > 0, known, and with at least one known neighbour). */
  places: number;
  /** Known places without a known neighbour: counted, and left out. */
  isolated: number;
  /**
   * EB-standardised Moran index; p is one-sided (likeness among neighbours), by permutation. null where too little is
   * known (see `reason`).
   */
  global: { index: number; expected: number; p: number; permutations: number; seed: number } | null;
  /**
   * Every known place, by key, with the counts of it and its known neighbours together. p is two-sided and exact
   * (hypergeometric, given what was tested where); adjustedP controls the false-discovery rate over the places of this
   * map. An isolated place is `too little tested` with p 1: it was not compared. Patterns are only told of a map that
   * has some by the verdict.
   */
  local: {
    place: PlaceKey;
    pattern: LocalPattern;
    tested: number;
    resistant: number;
    expected: number;
    p: number;
    adjustedP: number;
  }[];
  /** Null where too little is known, where points are not given, or where no circle holds more than is expected. */
  strongest: StrongestCircle | null;
  /** One sentence that a grower would understand. */
  sentence: string;
  /** Why there is no verdict, in plain words; null where there is one. */
  reason: string | null;
}

export interface FirstDetection {
  kind: 'first detection';
  species: Eppo;
  group: Group;
  placeKind: PlaceKind;
  place: PlaceKey;
  /** Period of the first confirmed cell. */
  period: Period;
  /**
   * Only the first is evidence of arrival. `earlier record not shown`: no clean period is known, and an earlier one
   * is withheld, so that nobody can say that this was the first test.
   */
  how: 'new after a clean record' | 'found at first test' | 'earlier record not shown';
  /** Last earlier period with tested > 0 and none resistant; null unless new after a clean record. */
  lastClean: Period | null;
  /** It came after the season `after` and by the season `by`; null where nobody can say when it came. */
  arrival: { after: Season; by: Season } | null;
  sentence: string;
}

export interface MatchedChange {
  kind: 'matched change';
  species: Eppo;
  group: Group;
  from: Season;
  to: Season;
  grain: PlaceKind;
  /** Places tested in both seasons: only these enter. */
  places: number;
  /** Mantel–Haenszel odds ratio with 95 % interval, `to` against `from`; null where it cannot be computed. */
  oddsRatio: number | null;
  low: number | null;
  high: number | null;
  p: number | null;
  sentence: string;
  reason: string | null;
}

/** How the share went over the closed seasons. */
export interface Trend {
  kind: 'trend';
  species: Eppo;
  group: Group;
  /** First and last closed season; null where none is closed. */
  from: Season | null;
  to: Season | null;
  grain: PlaceKind;
  /** Places that carry a comparison with themselves. */
  places: number;
  /**
   * Factor by which the odds change with each season, each place compared with itself (conditional logistic), with 95 %
   * interval and two-sided p; these allow for scatter between places where there are at least ten. null: see `reason`.
   */
  oddsRatio: number | null;
  low: number | null;
  high: number | null;
  p: number | null;
  /**
   * The region's shares as they were sent: exact Mann–Kendall p with the smallest that so short a series could have, and
   * Theil–Sen slope with 95 % interval, in shares of 0–1 a season. null where fewer than four seasons are known.
   */
  series: {
    seasons: number;
    p: number;
    smallestP: number | null;
    slope: number;
    low: number | null;
    high: number | null;
  } | null;
  sentence: string;
  reason: string | null;
}

/** How fast it moves outwards, and from where. */
export interface SpeedOfSpread {
  kind: 'speed';
  species: Eppo;
  group: Group;
  /** First and last closed season; null where none is closed. */
  from: Season | null;
  to: Season | null;
  /** Grain of the counts: by district the share is averaged over its counties. */
  grain: 'county' | 'district';
  /** km a season with 95 % interval; null where no speed can be told: see `reason`. */
  speed: number | null;
  low: number | null;
  high: number | null;
  /** What the front does to a place: it is reached at one time, or its share rises. */
  model: 'arrival' | 'rising share' | null;
  /** Where it began, as far as the counts tell: a point, the county nearest to it and how far that is, and when. */
  origins: { lon: number; lat: number; place: PlaceKey; kilometres: number; since: Season }[];
  /** By the other of the two models; null where there is but one. */
  otherSpeed: number | null;
  /** null where it moves alike in all directions, as far as can be told. Degrees clockwise from north, km a season. */
  direction: { towards: number; fastest: number | null; slowest: number | null; p: number } | null;
  /** Finds after a clean record too far from any earlier one for the front; by county only. */
  jumps: { place: PlaceKey; season: Season; nearest: PlaceKey; kilometres: number }[];
  /** Places found new after a clean record: what the speed rests on. */
  newFinds: number;
  sentence: string;
  reason: string | null;
}

export type Finding = Clustering | FirstDetection | MatchedChange | Trend | SpeedOfSpread;
