import type { FurtherTable } from '@/lib/disclosure/further';
import type { ReleasedCell, ReleasedCube, SeasonTable } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import type { AreaTable, District } from '@/lib/geography/types';
import type { Pair } from '@/lib/vocabulary/terms';
import type { ReleaseChanges } from './release-changes';

export type { Pair } from '@/lib/vocabulary/terms';

/** What a programme tells its readers; '' = not said. */
export interface ProgrammeSays {
  /** Whom to ask. */
  contact: string;
  /** Where seed is sent, with what to send along. */
  samplesTo: string;
  /** What the law of the region asks of finders of regulated weeds. */
  regulatedNotice: string;
}

/** The head of a release: what it is, for whom, under which policy. Everything in it is public. */
export interface ReleaseHead {
  /** 1, 2, 3 …: never reused. */
  number: number;
  /** ISO day of publication. */
  date: string;
  programme: string;
  region: string;
  /** Two-letter postal abbreviations. */
  states: string[];
  /** True where the data are simulated: every page, picture and file says so. */
  simulated: boolean;
  /** The programme's own districts; absent where it has none, and where they are the simulated programme's. */
  districts?: readonly District[];
  note: string;
  policy: ReleasedCube['policy'];
  /** Version and words of the case definition. */
  caseDefinition: { version: string; words: string };
  /** SPDX identifier of the licence that the programme chose for its data; null or absent: none. */
  licence?: string | null;
  /** Seed and number of orders of the permutation tests, with which whoever has the cells gets the same findings. */
  tests?: { seed: number; permutations: number };
  firstSeason: number;
  closedSeasons: number[];
  openSeason: number | null;
  windows: { first: number; last: number }[];
  /** Where a district or county is shown season by season. */
  seasonTables: SeasonTable[];
  /** How counties are joined, for each species and window. */
  areas: AreaTable[];
  /** Which further tables it has; absent in releases from before there were any. */
  furtherTables?: FurtherTable[];
  /** Species × group pairs with at least one screened population, sorted. */
  pairs: Pair[];
  /** The pair that a view shows when none is asked for: the one with most published populations in the region. */
  leading: Pair | null;
  /** What the programme told readers when it was made; absent: it was not asked yet. */
  says?: ProgrammeSays;
  /** How it differs from the newest release that stood before it; null: there was none; absent: it was not counted yet. */
  changes?: ReleaseChanges | null;
  files: { name: string; mediaType: string; bytes: number; sha256: string }[];
}

/** The release that was read until now, as the public has it. */
export interface ReleaseBefore {
  number: number;
  head: ReleaseDraft['head'];
  cells: readonly ReleasedCell[];
  /** Of its further tables; left out where it had none. */
  further?: readonly ReleasedCell[];
}

/** A release as it is built, before it is stored. */
export interface ReleaseDraft {
  head: Omit<ReleaseHead, 'number' | 'files'>;
  cube: ReleasedCube;
  findings: Finding[];
}
