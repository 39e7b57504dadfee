import type { Assay, Eppo, Fips, Group, Outcome, Result, Season } from '@/lib/vocabulary/terms';

/** Headings of the laboratory's sheet, in order. */
export const COLUMNS = [
  'Sample #',
  'Date collected',
  "Date rec'd",
  'State',
  'County',
  'Lat',
  'Long',
  'Location notes',
  'Weed',
  'Herbicide / Group',
  'Rate',
  'Plants treated',
  'Plants alive',
  'DAT',
  'S check',
  'Crop',
  'Grower/Operation',
  'OK to share',
  'Remarks',
  'Design',
  'Assay',
  'Funder',
  'Sent by',
] as const;

/** One record of the sheet: text by heading. */
export type Cells = Record<(typeof COLUMNS)[number], string>;

/** What is known of a record beside what the sheet says: private to the scenario, never in the sheet. */
export interface RowTruth {
  season: Season;
  county: Fips;
  species: Eppo;
  group: Group;
  /** Null where the sheet names only the group. */
  active: string | null;
  assay: Assay;
  /** Whether the population is resistant to this active. */
  resistant: boolean;
  /** What the rules of intake should make of the record as of the demo's day; the result only where accepted. */
  outcome: Outcome;
  result: Result | null;
}

/** Why a record was altered; null on ordinary ones. */
export interface Fault {
  kind: string;
  /** What the record would have said in the altered cells. */
  was: Partial<Cells>;
}

export interface ScenarioRow {
  cells: Cells;
  truth: RowTruth;
  fault: Fault | null;
}

/** The sheet of one season. Rows may be read again and again, and are made while they are read. */
export interface ScenarioSheet {
  season: Season;
  rows: Iterable<ScenarioRow>;
}
