import type {
  Assay,
  Design,
  Eppo,
  Fips,
  Group,
  Period,
  PlaceKey,
  PlaceKind,
  Result,
  Season,
} from '@/lib/vocabulary/terms';

/**
 * One population × group × assay after the active rule: the population counts once for the group however often it
 * was screened. Facts are the cube's input; they are private.
 */
export interface Fact {
  /** Opaque id of the population (one species from one field in one season). */
  population: string;
  county: Fips;
  season: Season;
  species: Eppo;
  group: Group;
  assay: Assay;
  design: Design;
  crop: string | null;
  funder: string | null;
  /** Opaque id of the operation; null counts, for protection, as one unknown operation of its county. */
  operation: string | null;
  /** null = received but not testable; `inconclusive` = testable, not tested; else tested. */
  result: Result | 'not testable' | 'void run';
  /** ISO common names of the actives that were tested, sorted. */
  actives: string[];
  /** What each of them showed, where that is known; left out where one alone was tested, or none was named. */
  byActive?: readonly ActiveResult[];
  /** True where the sender agreed that the sample enters public counts. */
  publicShare: boolean;
}

/** What a population showed against one active (or mixture of one group), at any rate. */
export interface ActiveResult {
  /** ISO common name; those of a mixture joined by ` + `. */
  active: string;
  result: Fact['result'];
}

/** Part of a cell: the populations of one crop, or those that one active was tested on (which overlap). */
export interface CellPart {
  of: 'crop' | 'active';
  name: string;
}

/** Counts of populations in one cell. received ≥ testable ≥ tested = resistant + someSurvivors + susceptible. */
export interface Counts {
  received: number;
  testable: number;
  tested: number;
  resistant: number;
  someSurvivors: number;
  susceptible: number;
  inconclusive: number;
}

/** Which slice of the cube a cell belongs to: place × period × species × group, kept apart by assay and design. */
export interface CellKey {
  placeKind: PlaceKind;
  place: PlaceKey;
  period: Period;
  species: Eppo;
  group: Group;
  assay: Assay;
  /** null = all designs together, which every view says. */
  design: Design | null;
  /** Left out = all crops and actives together. */
  part?: CellPart;
}

/** One cell of the private cube. `operations` and `largestOperation` are over tested populations and never leave it. */
export interface Cell extends CellKey, Counts {
  /** Distinct operations that sent a tested population (samples without one: one unknown operation for each county). */
  operations: number;
  /** Tested populations of the operation that sent most. */
  largestOperation: number;
  /** Union of the tested actives, sorted. */
  actives: string[];
}
