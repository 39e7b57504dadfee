import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { Assay, Design, Eppo, Fips, Group, Result, Season } from '@/lib/vocabulary/terms';

/** One screening: an active or a mixture of one group, at one rate, in one assay, over all replicates and valid runs. */
export interface SheetTest {
  group: Group;
  /** ISO common names; empty where the sheet named the group alone. */
  actives: string[];
  assay: Assay;
  /** Multiple of the label rate; null where it was not told. */
  rateMultiple: number | null;
  treated: number | null;
  alive: number | null;
  result: Result | 'not testable' | 'void run';
  /** Version of the case definition that it was called by. */
  caseDefinition: string;
  /** True while its runs contradict each other. */
  contradictory: boolean;
  /** True for a first find of its state that awaits its second run. */
  isFirstFind: boolean;
}

/** What is stored of one species of one sample. Private: for its sender. */
export interface ResultSheetFacts {
  id: number;
  sample: string;
  season: Season;
  laboratory: string;
  species: Eppo;
  county: Fips;
  collected: string | null;
  received: string | null;
  crop: string | null;
  design: Design;
  /** ISO day on which it was handed over; null = not yet. */
  reported: string | null;
  tests: SheetTest[];
  /** Runs whose checks were looked at. */
  runs: { name: string; valid: boolean; why: string }[];
}

/** A sheet for a sender: what is stored, and what the programme says of itself. */
export interface ResultSheet extends ResultSheetFacts {
  programme: string;
  simulated: boolean;
  /** Whom to ask; '' = not said. */
  contact: string;
  /** What the law asks of finders of regulated weeds; '' = not said. */
  regulatedNotice: string;
  definitions: Pick<CaseDefinition, 'version' | 'words'>[];
}
