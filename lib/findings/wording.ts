import type { PlaceKind } from '@/lib/geography/types';

/** Small helpers for sentences: English, plain words, a space before %. */

/** Beside every comparison of seasons. */
export const SUBMISSIONS_CAUTION =
  'Growers send what they suspect: a trend in submissions is not a trend in resistance.';

const PLURALS: Record<PlaceKind, string> = {
  region: 'regions',
  state: 'states',
  district: 'districts',
  area: 'counties and areas',
  county: 'counties',
};

/** `1 district`, `24 districts`; `24 counties and areas`, since a county may be an area by itself. */
export function places(count: number, kind: PlaceKind): string {
  return `${number(count)} ${count === 1 ? singular(kind) : PLURALS[kind]}`;
}

/** `district`; `county or area`. */
export function singular(kind: PlaceKind): string {
  return kind === 'area' ? 'county or area' : kind;
}

/** `counties`. */
export function placeWord(kind: PlaceKind): string {
  return PLURALS[kind];
}

/** `1 population`, `1,240 populations`. */
export function populations(count: number): string {
  return `${number(count)} ${count === 1 ? 'population' : 'populations'}`;
}

/** `29 of 41 populations screened were resistant`, `none of 6 …`, with a place set in after `screened`. */
export function ofScreened(resistant: number, tested: number, where = ''): string {
  const verb = resistant > 1 ? 'were' : 'was';
  return `${resistant === 0 ? 'none' : number(resistant)} of ${populations(tested)} screened${where} ${verb} resistant`;
}

/** `1,240`. */
export function number(value: number): string {
  return value.toLocaleString('en-US');
}

/** `p = 0.031`, `p = 0.42`, `p < 0.001`. */
export function probability(p: number): string {
  return p < 0.001 ? `p ${chance(p)}` : `p = ${chance(p)}`;
}

/** `0.031`, `0.42`, `< 0.001`. */
export function chance(p: number): string {
  if (p < 0.001) return '< 0.001';
  return p < 0.1 ? p.toPrecision(2) : p.toFixed(2);
}

/** `0.74`, `1.40`, `12.3`: two decimals below 10, else three digits. */
export function ratio(value: number): string {
  return value < 10 ? value.toFixed(2) : number(Number(value.toPrecision(3)));
}

/** `39 %`, whole numbers. */
export function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** `A`, `A and B`, `A, B and 3 more`. */
export function list(items: readonly string[], most = 6): string {
  const shown = items.length > most ? items.slice(0, most - 1) : items;
  const last = items.length > most ? `${items.length - shown.length} more` : shown.at(-1);
  const before = items.length > most ? shown : shown.slice(0, -1);
  return before.length === 0 ? (last ?? '') : `${before.join('; ')} and ${last}`;
}
