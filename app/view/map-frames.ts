import { encodeFill } from '@/lib/figures/fill-code';
import { type Fill, plainFill } from '@/lib/figures/looks';
import { countiesOf, isAreaKey } from '@/lib/geography/areas';
import type { AreaTable, County } from '@/lib/geography/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import { periodsOf } from './choices';
import { type MapContent, type MapInput, mapContent } from './map-content';
import { type Grain, windowKey } from './view';

/** One season or window of a map that can be played: how each place is filled, without its words. */
export interface MapFrame {
  /** As the address has it. */
  key: string;
  label: string;
  /** True for the season still under way. */
  unfinished: boolean;
  grain: Grain;
  /** Signs of fills, one for each county in the order of the region: that of the place that holds it. */
  fills: string;
  /** Keys of the areas that counties are counted in. */
  areas: string[];
  /** Address of the outlines of those areas; null where there are none. */
  outlines: string | null;
}

/**
 * The frames of a map, oldest first: its seasons where its grain has them, else its windows. Empty where there is
 * nothing to step through.
 */
export function mapFrames(input: MapInput): MapFrame[] {
  const { head, view } = input;
  const { windows, seasons } = periodsOf(head, view, view.layer, view.by);
  const periods = seasons.length > 1 ? seasons : windows;
  if (periods.length < 2) return [];
  return periods.map((period): MapFrame => {
    const map = mapContent({ ...input, view: { ...view, window: period } });
    return {
      key: windowKey(period),
      label: periodLabel(period),
      unfinished: period.first === head.openSeason,
      grain: map.grain,
      fills: fillsOf(input, map),
      areas: map.places.map(({ numbers }) => numbers.place.key).filter(isAreaKey),
      outlines: areaOutlines(head.number, map.areas),
    };
  });
}

/** Address of the outlines of areas. */
export function areaOutlines(release: number, areas: AreaTable | null): string | null {
  return areas && `/outlines/${release}-${areas.species}-${areas.first}.json`;
}

function fillsOf({ region }: MapInput, { grain, places }: MapContent): string {
  const fills = new Map(
    places.flatMap(({ numbers, fill }) => countiesOf(numbers.place.key).map((key) => [key, fill] as const)),
  );
  return region.counties.map((county) => encodeFill(fills.get(holderOf(county, grain)) ?? BLANK)).join('');
}

function holderOf({ fips, district, state }: County, grain: Grain): string {
  if (grain === 'county') return fips;
  return grain === 'state' ? state : (district ?? '');
}

const BLANK: Fill = plainFill('blank', null);
