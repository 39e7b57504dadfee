/**
 * The project's words as types: one word for one thing, used by every folder.
 */

/** What one population showed against one group. */
export type Result = 'resistant' | 'some survivors' | 'susceptible' | 'inconclusive';

/** How the field was chosen. Designs are never pooled without saying so. */
export type Design = 'submitted' | 'random' | 'follow-up' | 'roadside';
export const DESIGNS: readonly Design[] = ['submitted', 'random', 'follow-up', 'roadside'];

/** How the population was screened. Assays are never pooled without saying so. */
export type Assay = 'whole plant' | 'soil-applied' | 'molecular';
export const ASSAYS: readonly Assay[] = ['whole plant', 'soil-applied', 'molecular'];

/** What intake makes of one row of a sheet. */
export type Outcome = 'accepted' | 'in question' | 'refused';

/** Five-digit FIPS code of a county: the key, never the name. */
export type Fips = string;

/** EPPO code of a species, five letters. */
export type Eppo = string;

/** Number of a herbicide site-of-action group (harmonised numbers of 2020 on; 0 = unknown). */
export type Group = number;

/** What is counted, mapped and tested together. */
export interface Pair {
  species: Eppo;
  group: Group;
}

/** The calendar year in which the seed was collected. */
export type Season = number;

/** A consecutive run of seasons; `first === last` for a single season. */
export interface Period {
  first: Season;
  last: Season;
}

/** Kinds of place, coarse to fine. A place key is unique inside its kind. */
export type PlaceKind = 'region' | 'state' | 'district' | 'area' | 'county';

/**
 * `region`, a postal abbreviation, a district code, the FIPS codes of an area's counties joined by `+`, or a FIPS code.
 */
export type PlaceKey = string;

/** The four looks of a place: withheld and too little screened share one. */
export type PlaceStatus = 'confirmed' | 'none confirmed' | 'no public information' | 'not screened';
export const PLACE_STATUSES: readonly PlaceStatus[] = [
  'confirmed',
  'none confirmed',
  'no public information',
  'not screened',
];

/** `2024` for a single season, `2022–2024` for a window. */
export function periodLabel({ first, last }: Period): string {
  return first === last ? String(first) : `${first}–${last}`;
}

/** As addresses and options name a period: `2022-2024`, `2025-2025`. */
export function periodKey({ first, last }: Period): string {
  return `${first}-${last}`;
}
