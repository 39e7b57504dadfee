import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { LookNext } from '@/lib/findings/spread/look-next/types';
import type { Finding } from '@/lib/findings/types';
import type { Region } from '@/lib/geography/types';
import type { Eppo, Group, Period, PlaceKey, PlaceKind, PlaceStatus, Season } from '@/lib/vocabulary/terms';

/** Populations of a place in a period, with their share and its 95 % Wilson interval, 0–1. */
export interface Counted {
  tested: number;
  resistant: number;
  share: number;
  low: number;
  high: number;
}

/** What is known of a place, or may be shown of it. `counted` is null where no number is public or none exists. */
export interface PlaceCount {
  kind: PlaceKind;
  key: PlaceKey;
  /** As sentences name it: `Ness County, KS`. */
  name: string;
  status: PlaceStatus;
  counted: Counted | null;
}

/** One herbicide group of the briefing's weed. */
export interface GroupNumbers {
  group: Group;
  /** The region, or the chosen districts together, in the window. */
  whole: PlaceCount;
  /** Populations received and testable in the same place and window; null where the numbers are not shown. */
  receipt: { received: number; testable: number } | null;
  /** Every place of the map, counties and areas, those not screened too. */
  places: PlaceCount[];
  /** The whole, season by season. */
  series: TrendPoint[];
  /** Of the whole region, over all crops and funders. */
  findings: Finding[];
  /** Private. */
  lookNext: LookNext | null;
}

/** What a group of the same weed showed in the same place and window: one line of “what still works”. */
export interface GroupStanding {
  group: Group;
  status: PlaceStatus;
  counted: Counted | null;
  /** ISO common names of what was tested. */
  actives: string[];
}

/** Samples of one crop in the window, in one group. `isLeast`: some of them are withheld, so there were as many or more. */
export interface CropCount {
  crop: string;
  tested: number;
  resistant: number;
  isLeast: boolean;
}

/** What the money bought. `bySource` and `days` are private: no release tells of funders or days. */
export interface Effort {
  /** Counties from which something was screened in the window, of how many. */
  counties: { screened: number; of: number };
  /** By group, most samples first: from the table by crop of a release; null where it has none, or districts were chosen. */
  byCrop: { group: Group; crops: CropCount[] }[] | null;
  bySource: { crop: string; funder: string; received: number; tested: number; counties: number }[] | null;
  /** Days from receipt to the day on which the sender was told; null where fewer than one is known. */
  days: { samples: number; median: number; low: number; high: number } | null;
}

/** From where the numbers are. `date` is an ISO day, and dates the document. */
export type Source =
  | { kind: 'release'; number: number; date: string; errata: { date: string; text: string }[] }
  | { kind: 'private'; date: string; analysis: number | null; held: number };

/** All numbers of a briefing, read from a release or, privately, from the store. */
export interface BriefingNumbers {
  source: Source;
  programme: string;
  simulated: boolean;
  caseDefinition: { version: string; words: string };
  /** The whole region, or the part of it that the chosen districts make up: what the map shows. */
  region: Region;
  /** `Larkspur Basin`, `Kansas centre and Kansas north-west`. */
  wholeName: string;
  /** Of the whole region. */
  regionName: string;
  /** True where districts were chosen: findings are then of more than the numbers. */
  isPart: boolean;
  species: Eppo;
  window: Period;
  closedSeasons: readonly Season[];
  /** Private filters of the samples; null where all of them count. */
  crop: string | null;
  funder: string | null;
  /** In the order in which they were asked for. */
  groups: GroupNumbers[];
  standings: GroupStanding[];
  effort: Effort;
}

/** A sentence made from numbers, as it was computed and as it is printed. */
export interface Sentence {
  /** By which it is named when it is edited: `found-27`. */
  key: string;
  computed: string;
  printed: string;
}

/** A briefing with its headlines, ready to be drawn. */
export interface Briefing {
  numbers: BriefingNumbers;
  headlines: Sentence[];
}
