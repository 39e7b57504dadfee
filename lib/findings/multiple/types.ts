import type { MultipleResistance } from '@/lib/stats/multiple-resistance';
import type { Design, Eppo, Group, Season } from '@/lib/vocabulary/terms';

/** Which populations: one species, and how its fields were chosen (null: all designs together). */
export interface MultipleKey {
  species: Eppo;
  design: Design | null;
}

/** Plain data, so that another thread can be handed it. Private. */
export interface MultipleTask extends MultipleKey {
  kind: 'multiple';
  /** Groups that any population was screened for, ascending: bit g of a mask is `groups[g]`. */
  groups: Group[];
  /** Closed seasons with a population, ascending. */
  seasons: Season[];
  /**
   * One for each sender, county and season: row of the season, place that is compared with itself (district, else county)
   * by index, and the groups tested and resistant as masks.
   */
  populations: { season: number[]; place: number[]; tested: number[]; resistant: number[] };
  speciesName: string;
}

/** Two groups in the same population. */
export interface GroupPair {
  first: Group;
  second: Group;
  /** Populations screened for both; of them resistant to both, to one only, to neither. */
  tested: number;
  both: number;
  firstOnly: number;
  secondOnly: number;
  neither: number;
  /** Conditional odds of one where the other is, inside place and season, with 95 % interval; null where there is none. */
  oddsRatio: number | null;
  low: number | null;
  high: number | null;
  /** Two-sided mid-p, adjusted for the pairs of the species. */
  p: number;
}

export interface MultipleAnalysis extends MultipleKey {
  kind: 'multiple';
  seasons: [Season, Season];
  pairs: GroupPair[];
  /** By season and number of groups: exactly and at least so many, of those screened for so many or more. */
  bySeason: MultipleResistance[];
  /** For two groups or more, three or more …: two-sided p of a trend over the seasons; null where it cannot be told. */
  trends: { groups: number; p: number | null; rises: boolean }[];
  sentences: { together: string; growth: string };
}
