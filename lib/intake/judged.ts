import type { Assay, Design, Eppo, Fips, Group, Outcome, Result, Season } from '@/lib/vocabulary/terms';
import type { LocatedBy } from './read-place';

/** Why a row was not accepted: where, what, and what would settle it. */
export interface Reason {
  code: string;
  /** The sheet's own heading. */
  column: string;
  /** The cell as sent. */
  value: string;
  reason: string;
  remedy: string;
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
   * question, or refused without having been screened, or not known where it belongs; it counts nowhere.
   */
  kind: 'tested' | 'not testable' | 'void run' | null;
  sample: string | null;
  season: Season | null;
  /** `2026-09-14`, `2026-09` or `2026`. */
  collected: string | null;
  datePrecision: 'day' | 'month' | 'year' | null;
  received: string | null;
  county: Fips | null;
  locatedBy: LocatedBy | null;
  lat: number | null;
  lon: number | null;
  species: Eppo | null;
  group: Group | null;
  /** ISO common names, sorted; empty where the sheet names the group alone. */
  actives: string[];
  assay: Assay | null;
  /** Multiple of the label rate; null for a molecular assay without one. */
  rateMultiple: number | null;
  treated: number | null;
  alive: number | null;
  /** By the case definition of the day of import; null unless accepted. */
  result: Result | null;
  design: Design | null;
  crop: string | null;
  funder: string | null;
  sender: string | null;
  operation: string | null;
  laboratory: string | null;
  /** True where the sender agreed to public counts. */
  publicShare: boolean;
  /** Text by the sheet's own headings, as sent. */
  raw: Readonly<Record<string, string>>;
}
