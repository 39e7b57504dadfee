import type { PlaceKey } from '@/lib/geography/types';
import type { Design, Eppo, Group, Period } from '@/lib/vocabulary/terms';
import type { SenderCounts } from '../made-of';
import type { MultipleAnalysis, MultipleTask } from '../multiple/types';
import type { Point } from '../scan-for-circle';
import type { SpreadAnalysis, SpreadTask } from '../spread/types';
import type { Clustering, Observation } from '../types';

/** Which map: one species × group × period, and how its fields were chosen (null: all designs together). */
export interface MapKey {
  species: Eppo;
  group: Group;
  period: Period;
  design: Design | null;
  grain: Clustering['grain'];
}

/** Everything that the tests of a map look at: plain data, so that another thread can be handed it. Private. */
export interface MapTask extends MapKey {
  kind: 'map';
  /** Ascending by place. */
  observations: Observation[];
  /** For each place of the region those it touches. */
  neighbours: ReadonlyMap<PlaceKey, readonly PlaceKey[]>;
  points: ReadonlyMap<PlaceKey, Point>;
  senders: ReadonlyMap<PlaceKey, readonly SenderCounts[]>;
  /** Tested and resistant of each place in each season of the period, in the places' order, season last. */
  bySeason: { tested: number[]; resistant: number[]; seasons: number };
  /** How sentences name the species. */
  speciesName: string;
  /** How sentences name the places of the map. */
  placeNames: ReadonlyMap<PlaceKey, string>;
  seed: number;
}

/** A test of the whole map. */
export interface GlobalResult {
  statistic: number;
  /** One-sided: neighbours alike. */
  p: number;
}

/** What a local test says of a place at 5 %, adjusted for the number of places: itself, and those around it. */
export type PlacePattern =
  | 'more, amid more'
  | 'fewer, amid fewer'
  | 'more, amid fewer'
  | 'fewer, amid more'
  | 'more around here'
  | 'fewer around here'
  | 'found, amid found'
  | 'no sign';

/** A test of each place, in the order of `MapTests.places`. */
export interface LocalResult {
  pattern: PlacePattern[];
  statistic: number[];
  p: number[];
  /** Benjamini–Hochberg over the places of the map. */
  adjustedP: number[];
}

export interface ScanCircleResult {
  centre: PlaceKey;
  places: PlaceKey[];
  radiusKm: number;
  /** First and last season: the whole period in a scan over places alone. */
  seasons: [number, number];
  /** Null where the scan needs no tested. */
  tested: number | null;
  resistant: number;
  expected: number;
  relativeRisk: number | null;
  p: number;
  pGumbel: number | null;
}

/** The tests behind a verdict, each by itself and without allowance for the others: exploratory. */
export interface MapTests {
  /** Known places with a known neighbour. */
  places: PlaceKey[];
  global: {
    /** Index of the raw shares: said for those who know it; uneven testing alone moves it. */
    moran: GlobalResult;
    geary: GlobalResult;
    /** Joins between places where it was found. Null where it was found everywhere or nowhere. */
    joinCounts: GlobalResult | null;
    constantRisk: GlobalResult;
  };
  local: {
    moran: LocalResult;
    g: LocalResult;
    gStar: LocalResult;
    /** Null as the join counts of the whole map. */
    joinCounts: LocalResult | null;
    /** The exact test of a place with its neighbours, adjusted against any false alarm on the map. */
    minimumP: { adjustedP: number[]; replicates: number };
  };
  /** Strongest first, without overlap. `half`, `quarter`: the largest part of the tested that a circle holds. */
  circles: { half: ScanCircleResult[]; quarter: ScanCircleResult[] };
  /** Over the seasons of the period; null for a single season or design, or where nothing can stand out. */
  cylinders: ScanCircleResult[] | null;
  /** The same without regard to what was tested: who of the resistant came when. */
  seasonPermutation: ScanCircleResult[] | null;
  rates: {
    mean: number;
    correlation: number;
    correlationError: number | null;
    /** Chance of so much difference between places where all have one share. */
    p: number;
    /** Empirical-Bayes shares of each place: by likelihood, by moments, and towards its neighbours. */
    betaBinomial: number[];
    global: number[];
    local: number[];
  };
  permutations: number;
  replicates: number;
  /** What a reader has to know of the tests' limits. */
  warnings: string[];
}

export interface MapAnalysis extends MapKey {
  kind: 'map';
  seed: number;
  clustering: Clustering;
  /** Null where too little was tested for a verdict. */
  tests: MapTests | null;
}

/** One part of an analysis: a map, the spread of a species × group, the multiple resistance of a species. */
export type AnalysisTask = MapTask | SpreadTask | MultipleTask;
export type AnalysisPart = MapAnalysis | SpreadAnalysis | MultipleAnalysis;
