import type { SeasonCounts, SpreadPoints } from '@/lib/stats/spread/types';
import type { Weights } from '@/lib/stats/weights';
import type { Eppo, Group, PlaceKey, PlaceKind, Season } from '@/lib/vocabulary/terms';
import type { Names } from '../../names';

/** Crop area by place, in hectares; null where the table does not tell. */
export interface CropExposure {
  /** The crop or crops, as sentences name them: `sorghum`, `corn and soybean`. */
  crop: string;
  hectares: ArrayLike<number | null>;
}

export interface LookNextInput {
  species: Eppo;
  group: Group;
  placeKind: PlaceKind;
  /** Keys of the places, in the order of all that follows: every place of the region, also those never tested. */
  places: readonly PlaceKey[];
  /** Seasons before the one to look at, of one assay. */
  counts: SeasonCounts;
  weights: Weights;
  points: SpreadPoints;
  /** The season to look at: after all that are counted. */
  season: Season;
  /** Places with a find known from before the seasons counted: found, though never tested here. */
  foundBefore?: readonly PlaceKey[];
  /** How many populations would be sent from a place; 4 unless given. */
  populations?: number;
  /** Left out: no table is loaded, and area does not count. */
  exposure?: CropExposure | null;
  /** Codes unless given. */
  names?: Names;
}

/** A place where nothing was found so far. */
export interface PlaceToLookAt {
  place: PlaceKey;
  /**
   * Chance of a first find if so many populations were tested, by how near finds are and by its own clean tests, with the
   * 95 % interval of the fit; null without a model.
   */
  chance: number | null;
  low: number | null;
  high: number | null;
  /** The same by how near finds are alone, as if it had been tested as much as usual. */
  chanceByNearness: number | null;
  /**
   * In (0, 1]: factor of its hazard, 1 where never tested. With a model 1 / (1 + finds that its clean tests let expect), else
   * 1 / (1 + tested).
   */
  lackOfTesting: number;
  /** Its crop area, and that over the mean of the places listed; both null where not known, and it counts as the mean. */
  hectares: number | null;
  relativeArea: number | null;
  /** chance × relative area; null without a model. */
  priority: number | null;
  /** Populations tested there so far, all clean, and the last season with one. */
  tested: number;
  lastTested: Season | null;
  neighbours: number;
  foundNeighbours: number;
  /** To the nearest place with a find, km (`great circle`) or the plane's unit; null where nothing was found. */
  nearestFind: number | null;
  /** `3 of its 5 neighbours found; never tested; 12,000 ha of sorghum`. */
  reason: string;
}

/** What the order rests on. The last two are rules of thumb, not estimates. */
export type LookNextOrder = 'hazard' | 'found neighbours' | 'lack of testing';

/** Why the data carry no model. */
export type NoModelReason =
  | 'nothing found'
  | 'one season'
  | 'too few finds'
  | 'not nearer to finds'
  | 'nothing to compare'
  | 'no end';

/** The hazard that orders the list. */
export interface LookNextModel {
  /**
   * Measures of how near the finds are, heaviest first, with what they count (adding up to 1) and the hazard ratio for one
   * unit more, 95 % interval clustered by place.
   */
  measures: { name: string; weight: number; hazardRatio: number; low: number; high: number }[];
  /** Wald p of no effect of the heaviest inside seasons, times the number of measures tried; 1 where they say nothing. */
  p: number;
  /** Places found after a clean record, and rows (place × season) at risk. */
  newFinds: number;
  rows: number;
}

/** Where to look in a season. Staff only: it is made of exact counts. */
export interface LookNext {
  kind: 'look next';
  species: Eppo;
  group: Group;
  season: Season;
  placeKind: PlaceKind;
  populations: number;
  order: LookNextOrder;
  model: LookNextModel | null;
  /** null where there is a model. */
  noModel: { reason: NoModelReason; message: string } | null;
  /** Places never found, first to look at first. */
  places: PlaceToLookAt[];
  sentence: string;
}
