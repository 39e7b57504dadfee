import type { CellKey } from '@/lib/cube/types';
import type { AreaTable, PlaceKey, PlaceKind } from '@/lib/geography/types';
import type { Eppo, Group, Pair, Period, PlaceStatus, Season } from '@/lib/vocabulary/terms';
import type { FurtherTable } from './further';

/** Disclosure policy: versioned data. `dominanceShare` is private: a public text says only that there is a limit. */
export interface Policy {
  version: string;
  /** A cell with fewer tested populations is withheld. */
  minimumTested: number;
  /** A cell with fewer operations is withheld. */
  minimumOperations: number;
  /** A cell in which one operation sent more than this share (0–1) of the tested populations is withheld. */
  dominanceShare: number;
  /** A cell with all-but-one, all or none resistant is withheld below this number of operations. */
  unanimousOperations: number;
  /** Closed seasons in a window, counted from the first season: fixed, not overlapping. */
  windowLength: number;
  /** County × season is published for a pair and window only when at least this share (0–1) of its cells passes. */
  countySeasonShare: number;
  /**
   * The same for district × season. Where few such cells pass, the many withheld ones would force state totals to be
   * withheld too; the district then speaks by window alone.
   */
  districtSeasonShare: number;
}

/** A season table of one pair that is published inside one window; elsewhere an absent cell says nothing. */
export interface SeasonTable {
  placeKind: 'district' | 'county';
  species: Eppo;
  group: Group;
  /** First season of the window. */
  first: Season;
}

/** Counts that may be published for a cell; withheld together. */
export interface ReleasedCounts {
  tested: number;
  resistant: number;
  someSurvivors: number;
}

/** Counts published at region and state only. */
export interface ReceivedCounts {
  received: number;
  testable: number;
  inconclusive: number;
}

/** One cell as the public sees it. `counts` is null exactly when the cell is withheld (its look is the same everywhere). */
export interface ReleasedCell extends CellKey {
  status: 'published' | 'withheld';
  counts: ReleasedCounts | null;
  /** Only at region and state and only when published. */
  receipt: ReceivedCounts | null;
  /** Tested actives, only when published; empty otherwise. */
  actives: string[];
  /** True for the season still under way. */
  unfinished: boolean;
}

/** What may be said of a place over all closed windows. */
export interface ReleasedStatus {
  placeKind: PlaceKind;
  place: PlaceKey;
  species: Eppo;
  group: Group;
  status: PlaceStatus;
}

declare const released: unique symbol;

/**
 * Everything the public may see of a cube. Only `lib/disclosure` constructs it (the brand has no value outside that
 * folder), and public routes, findings and documents take nothing else.
 */
export interface ReleasedCube {
  readonly [released]: true;
  readonly policy: Omit<Policy, 'dominanceShare'>;
  readonly firstSeason: Season;
  /** Closed seasons, ascending. */
  readonly closedSeasons: readonly Season[];
  /** The season under way, shown at region and state only; null where there is none. */
  readonly openSeason: Season | null;
  readonly windows: readonly { first: Season; last: Season }[];
  /** Where district × season and county × season are published. */
  readonly seasonTables: readonly SeasonTable[];
  /** The areas of each species and window: how counties are joined there. */
  readonly areas: readonly AreaTable[];
  /**
   * Cells with tested > 0 (published or withheld). A cell that is absent from a published table was not screened
   * (tested is zero, which is public).
   */
  readonly cells: readonly ReleasedCell[];
  /** Which further tables the release has; in one that it has, an absent cell was not screened. */
  readonly furtherTables: readonly FurtherTable[];
  /**
   * Cells of the further tables: by crop at state × season and by active at district × window (`part`), and resistance to
   * several groups at region and state × window (see `lib/disclosure/further.ts`).
   */
  readonly further: readonly ReleasedCell[];
  readonly statuses: readonly ReleasedStatus[];
}

/** A cell that the audit finds too well known, with what an attacker can conclude. */
export interface AuditBreach {
  cell: string;
  measure: 'tested' | 'resistant' | 'not resistant';
  /** Feasible interval that the attacker finds. */
  low: number;
  high: number;
  kind: 'exact' | 'too narrow' | 'contradiction';
  pair?: Pair;
  /** What the interval should hold, where it is too narrow. */
  needed?: { low: number; high: number };
  /** `cellKeyText` of the cell, where it is about one. */
  key?: string;
}

export interface AuditReport {
  clean: boolean;
  withheldCells: number;
  publishedCells: number;
  /** Linear programs solved. */
  programs: number;
  breaches: AuditBreach[];
}

/** Resistant, some survivors, susceptible. */
export type Results = readonly [number, number, number];

/** A sender who would know the result of others in a withheld cell. Private. */
export interface InsiderBreach extends Pair {
  /** `cellKeyText` of the cell. */
  cell: string;
  quantity: 'resistant' | 'not resistant';
  /** What this sender has in each cell of this release, by `cellKeyText`. */
  own: ReadonlyMap<string, Results>;
}

/** Whole-plant results of one crop, all designs together, in a state and season. They add up to the state's. */
export interface CropCell {
  state: PlaceKey;
  season: Season;
  species: Eppo;
  group: Group;
  /** Common name, or `OTHER_CROP`. */
  crop: string;
  status: ReleasedCell['status'];
  /** Null exactly when withheld. */
  counts: ReleasedCounts | null;
}

/** Whole-plant results of one active in a district and window. A population tested on two actives counts in both. */
export interface ActiveCell {
  district: PlaceKey;
  period: Period;
  species: Eppo;
  group: Group;
  /** ISO common name (those of a mixture joined by ` + `), or `NOT_NAMED`. */
  active: string;
  status: ReleasedCell['status'];
  counts: ReleasedCounts | null;
}

/** Populations of a species that were screened against two groups or more, by the number of groups they are resistant to. */
export interface MultipleCell {
  placeKind: 'region' | 'state';
  place: PlaceKey;
  period: Period;
  species: Eppo;
  status: ReleasedCell['status'];
  /** tested = none + one + several; `several` is two groups or more. Null exactly when withheld. */
  counts: { tested: number; none: number; one: number; several: number } | null;
}
