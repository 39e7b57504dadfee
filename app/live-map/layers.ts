import type {
  DataDrivenPropertyValueSpecification,
  ExpressionSpecification,
  LayerSpecification,
  LineLayerSpecification as LineLayer,
} from 'maplibre-gl';
import { TONES, type Tone } from '@/lib/figures/looks';
import type { Palette } from './palette';

export const SOURCE = 'outlines';
export const FILL = 'fill';
/** Outlines of the areas of the map that is shown. */
export const AREAS = 'areas';

/** The front that is shown. */
export const FRONT = 'front';

/** Inks as the numbers that feature state holds: their place among all. */
export function codeOf(tone: Tone): number {
  return TONES.indexOf(tone);
}

const code: ExpressionSpecification = ['coalesce', ['feature-state', 'tone'], codeOf('blank')];

/** All layers from the ground up, in the order, colours and widths of the picture at `scale` CSS pixels a unit. */
export function layers(palette: Palette, scale: number): LayerSpecification[] {
  const line = (id: string, filter: ExpressionSpecification, colour: string, width: number) =>
    lineLayer(id, filter, colour, Math.max(0.5, width * scale));
  return [
    { ...ground, id: FILL, paint: { 'fill-antialias': false, 'fill-color': fillColour(palette) } },
    { ...ground, id: 'dots', paint: { 'fill-pattern': 'dots', 'fill-opacity': only('clean') } },
    { ...ground, id: 'hatch', paint: { 'fill-pattern': 'hatch', 'fill-opacity': only('hidden') } },
    { ...ground, id: 'faint', paint: { 'fill-pattern': 'faint', 'fill-opacity': FAINT_ONLY } },
    faint(line('line-county', ['==', ['get', 'kind'], 'county'], palette.county, 0.8)),
    ofAreas(line('line-area', ['==', ['get', 'kind'], 'area'], palette.county, 0.8)),
    line('line-district', ['==', ['get', 'kind'], 'district'], palette.district, 1.1),
    line('line-state', ['==', ['get', 'kind'], 'state'], palette.state, 1.6),
    ofFront(line('front-halo', ALL, palette.sheet, 3.5)),
    dashed(ofFront(line('front', ALL, palette.ink, 1.5))),
    ...both(line('line-pointed', NOWHERE, palette.ink, 1.8)),
    ...both(line('line-chosen-halo', NOWHERE, palette.sheet, 4.5)),
    ...both(line('line-chosen', NOWHERE, palette.ink, 2.5)),
  ];
}

/** A layer that outlines places, for areas as well. */
function both(layer: LineLayer): LineLayer[] {
  return [layer, ofAreas({ ...layer, id: `${layer.id}-area` })];
}

function ofAreas(layer: LineLayer): LineLayer {
  return { ...layer, source: AREAS };
}

function ofFront(layer: LineLayer): LineLayer {
  return { ...layer, source: FRONT };
}

function dashed(layer: LineLayer): LineLayer {
  return { ...layer, paint: { ...layer.paint, 'line-dasharray': [3.3, 2.3] }, layout: {} };
}

const ALL: ExpressionSpecification = ['has', 'kind'];

/** Lines of counties inside an area are faint. */
function faint(layer: LineLayer): LineLayer {
  return { ...layer, paint: { ...layer.paint, 'line-opacity': COUNTY_OPACITY } };
}

export const COUNTY_OPACITY: ExpressionSpecification = [
  'case',
  ['boolean', ['feature-state', 'joined'], false],
  0.25,
  1,
];

export const NOWHERE: ExpressionSpecification = ['==', ['get', 'place'], ''];

/** The outline of a place of any kind. */
export function outlineOf(place: string): ExpressionSpecification {
  return ['==', ['get', 'place'], place];
}

export function fillColour(palette: Palette): ExpressionSpecification {
  const inks = TONES.flatMap((tone, i) => [i, palette.tones[tone]]);
  return ['match', code, ...inks, palette.sheet] as unknown as ExpressionSpecification;
}

function only(tone: 'clean' | 'hidden'): DataDrivenPropertyValueSpecification<number> {
  return ['case', ['==', code, codeOf(tone)], 1, 0];
}

const FAINT_ONLY: DataDrivenPropertyValueSpecification<number> = [
  'case',
  ['boolean', ['feature-state', 'faint'], false],
  1,
  0,
];

const ground = {
  type: 'fill',
  source: SOURCE,
  filter: ['==', ['get', 'kind'], 'county'],
} as const satisfies Partial<LayerSpecification>;

function lineLayer(id: string, filter: ExpressionSpecification, colour: string, width: number): LineLayer {
  return {
    id,
    type: 'line',
    source: SOURCE,
    filter,
    layout: { 'line-join': 'round', 'line-cap': 'round' },
    paint: { 'line-color': colour, 'line-width': width },
  };
}
