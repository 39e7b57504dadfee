import type { Assay, Design, Eppo, Fips, Group, Outcome, Result, Season } from '@/lib/vocabulary/terms';
import type { Column } from './columns';
import type { CheckKind } from './confirmation/judge-run';
import type { Certainty, LocatedBy } from './read-place';

/** Why a row was not accepted: where, what, and what would settle it. */
export interface Reason {
  code: string;
  /** The sheet's own heading. */
  column: string;
  /** The column; null where the reason is about the whole row. */
  key: Column | null;
  /** The cell as sent. */
  value: string;
  reason: string;
  remedy: string;
  /** Cell texts that would answer it. */
  candidates: readonly string[];
  /** Whether an answer explains a wording, which means the same in the laboratory's next sheet. */
  memorable: boolean;
  /** Whether a person may let the row stand in spite of it. */
  mayStand: boolean;
}

/** What a row may carry besides; what it does not say is left out. */
export interface RowDetails {
  /** Plants of which seed was taken, and how many of them were female. */
  plants?: number;
  females?: number;
  sex?: string;
  heightCm?: number;
  /** Days from spraying to scoring. */
  daysAfterTreatment?: number;
  /** ISO days. */
  sown?: string;
  sprayed?: string;
  scored?: string;
  reported?: string;
  zip?: string;
  /** Which plants beside the populations the row is about; the record is then no population. */
  check?: CheckKind;
  /** Plants of the susceptible check of the row's run, where the row itself gives them. */
  susceptibleCheck?: { treated: number; alive: number };
  /** Plants that emerged in treated and in untreated pots sown alike. */
  emerged?: { treated: number; untreated: number };
  /** The result that the sheet states. */
  stated?: Result;
}

/** What intake makes of one data row. What could not be read is null. */
export interface Judged {
  /** 1-based number of the data row. */
  record: number;
  /** Line of the file on which it starts. */
  line: number;
  outcome: Outcome;
  /** Refusals first; the first is the main reason. */
  reasons: Reason[];
  /** How cells were understood, and what to keep in mind: never a reason against the row. */
  flags: string[];
  /**
   * How the row counts. `tested`: accepted. `not testable`: received only. `void run`: received and testable. null: in
   * question, or refused without having been screened, or not known where it belongs; it counts nowhere. `check`: accepted,
   * and about plants sown beside the populations of a run.
   */
  kind: 'tested' | 'not testable' | 'void run' | 'check' | null;
  sample: string | null;
  season: Season | null;
  /** `2026-09-14`, `2026-09` or `2026`. */
  collected: string | null;
  datePrecision: 'day' | 'month' | 'year' | null;
  received: string | null;
  county: Fips | null;
  locatedBy: LocatedBy | null;
  /** How sure the county is. */
  certainty: Certainty | null;
  lat: number | null;
  lon: number | null;
  species: Eppo | null;
  group: Group | null;
  /** ISO common names, sorted; empty where the sheet names the group alone. */
  actives: string[];
  assay: Assay | null;
  /** Multiple of the label rate; null for a molecular assay without one. */
  rateMultiple: number | null;
  /** Greenhouse run and replicate, where the sheet names them. */
  run: string | null;
  replicate: string | null;
  treated: number | null;
  alive: number | null;
  /** By the case definition of the day of import; null unless accepted. */
  result: Result | null;
  design: Design | null;
  crop: string | null;
  funder: string | null;
  sender: string | null;
  operation: string | null;
  /** Number of the bag in which the seed came. */
  bag: string | null;
  laboratory: string | null;
  /** True where the sender agreed to public counts. */
  publicShare: boolean;
  details: Readonly<RowDetails>;
  /** Text by the sheet's own headings, as sent. */
  raw: Readonly<Record<string, string>>;
  /** The same in the order of the headings; left out where the row is no whole one. */
  fields?: readonly string[] | undefined;
}
