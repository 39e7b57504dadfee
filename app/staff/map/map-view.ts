import type { Region } from '@/lib/geography/types';
import {
  ASSAYS,
  type Assay,
  DESIGNS,
  type Design,
  type Pair,
  type Period,
  periodKey,
} from '@/lib/vocabulary/terms';
import { mapTexts as texts } from '../messages/map';
import { chosenPair, pairKey } from '../messages/pairs';

export const GRAINS = ['county', 'district', 'state'] as const;
export type Grain = (typeof GRAINS)[number];

/** What a region's map can be looked at by: it has districts, or none. */
export function grainsOf({ districts }: Pick<Region, 'districts'>): readonly Grain[] {
  return districts.length > 0 ? GRAINS : GRAINS.filter((grain) => grain !== 'district');
}

/** What the private map can show of each place. */
export const LAYERS = ['share', 'since', 'effort', 'cluster', 'next', 'dominance', 'questions'] as const;
export type Layer = (typeof LAYERS)[number];

/** What is known by county alone. */
const BY_COUNTY: readonly Layer[] = ['cluster', 'next', 'questions'];

/** What the private map shows: the address holds all of it. */
export interface MapView {
  pair: Pair;
  period: Period;
  by: Grain;
  layer: Layer;
  /** null: all designs together, which the page says. */
  design: Design | null;
  assay: Assay;
  crop: string | null;
  funder: string | null;
  /** Key of a place of any grain, or `region`. */
  place: string;
  /** True: what the latest release shows of it. */
  isPublic: boolean;
}

type Words = Record<string, string | string[] | undefined>;

/** The view of an address; what it does not name or names wrongly is as it usually is. */
export function parseMapView(
  search: Words,
  {
    pairs,
    periods,
    grains,
  }: { pairs: readonly Pair[]; periods: readonly Period[]; grains: readonly Grain[] },
): MapView | null {
  const pair = chosenPair(pairs, search.pair);
  const period = periods.find((one) => periodKey(one) === search.period) ?? periods[0];
  if (!pair || !period) return null;
  const layer = oneOf(LAYERS, search.layer) ?? 'share';
  return {
    ...{ pair, period, layer },
    by: BY_COUNTY.includes(layer) ? 'county' : (oneOf(grains, search.by) ?? 'county'),
    design: oneOf(DESIGNS, search.design) ?? null,
    assay: oneOf(ASSAYS, search.assay) ?? 'whole plant',
    crop: text(search.crop),
    funder: text(search.funder),
    place: text(search.place) ?? 'region',
    isPublic: search.public === 'yes',
  };
}

/** Address of a view. */
export function mapHref(view: MapView): string {
  const { pair, period, by, layer, design, assay, crop, funder, place, isPublic } = view;
  const query = new URLSearchParams({ pair: pairKey(pair), period: periodKey(period), by, layer });
  if (design) query.set('design', design);
  if (assay !== 'whole plant') query.set('assay', assay);
  if (crop) query.set('crop', crop);
  if (funder) query.set('funder', funder);
  if (place !== 'region') query.set('place', place);
  if (isPublic) query.set('public', 'yes');
  return `/staff/map?${query}`;
}

/** What a view keeps apart, in words: never pooled silently. */
export function keptApart({ design, assay, crop, funder }: MapView): string[] {
  return [
    design ? texts.designs[design] : texts.allDesigns,
    texts.assays[assay],
    ...(crop ? [crop] : []),
    ...(funder ? [funder] : []),
  ];
}

function oneOf<T extends string>(values: readonly T[], word: Words[string]): T | undefined {
  return values.find((value) => value === word);
}

function text(word: Words[string]): string | null {
  return typeof word === 'string' && word !== '' ? word.slice(0, 200) : null;
}
