import type { CellKey, Fact } from '@/lib/cube/types';
import type { LadderQuestion } from '@/lib/disclosure/ladder';
import type { PlaceTree } from '@/lib/disclosure/places';
import type { EarlierCube } from '@/lib/disclosure/standing';
import type { AreaTable } from '@/lib/geography/types';
import type { Eppo, Fips, Group, Season } from '@/lib/vocabulary/terms';
import type { Shortfall } from '../batch-rule';

/** An earlier release with what it was made of. Private. */
export interface PastRelease {
  number: number;
  cube: EarlierCube['cube'] & { firstSeason: Season };
  places: PlaceTree;
  /** As they stood then; with consent only. */
  facts: readonly Fact[];
}

export interface RevisionQuestion {
  /** As they stand now; with consent only. */
  facts: readonly Fact[];
  /** Oldest first. */
  past: readonly PastRelease[];
  question: LadderQuestion;
  places: PlaceTree;
  /** Of the windows that were released before, with counties that came since. */
  areas: readonly AreaTable[];
  /** Which results count towards resistance to several groups. */
  isShown: (fact: Fact) => boolean;
  /** Pairs (`species|group`) and cells (`cellKeyText`) of which nothing may change: their protection would be lost. */
  halted?: ReadonlySet<string>;
}

export type WaitReason =
  | Shortfall
  | 'a shown cell would have to be withheld'
  | 'a withheld cell would be told'
  | 'audit';

/** Samples of one county, season, species and group that a release leaves as they were. Private. */
export interface Waiting {
  county: Fips;
  season: Season;
  species: Eppo;
  group: Group;
  /** Populations that would enter, leave or change. */
  entering: number;
  leaving: number;
  corrected: number;
  why: { reason: WaitReason; cell: CellKey | null };
}

export interface Revision {
  /** What the release is made of. */
  facts: Fact[];
  waiting: Waiting[];
  /** Changes of released cells that nothing can make wait: places were recoded. Such a release must not be made. */
  stuck: { release: number; cell: CellKey; reason: WaitReason }[];
}
