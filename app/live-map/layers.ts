import type {
  ExpressionSpecification,
  LayerSpecification,
  LineLayerSpecification as LineLayer,
} from 'maplibre-gl';
import { type Fill, TONES, type Tone } from '@/lib/figures/looks';
import type { Palette } from './palette';

/**
 * The same outlines in three sources, so that a change costs only what it touches: a source renews the states of its
 * features in every layer that asks for any, and is read anew as a whole when one of its layers gets another filter.
 */
export const FILLS = 'fills';
export const TEXTURES = 'textures';
export const LINES = 'lines';
export const FILL = 'fill';
/** Outlines of the areas of the map that is shown. */
export const AREAS = 'areas';
/** The front that is shown. */
export const FRONT = 'front';

/** What lies over an ink: its place in `TEXTURE_NAMES` and one; 0 is nothing. */
export function textureOf({ tone, faint }: Fill): number {
  const texture = tone === 'clean' ? 'dots' : tone === 'hidden' ? 'hatch' : faint ? 'faint' : null;
  return texture === null ? 0 : TEXTURE_NAMES.indexOf(texture) + 1;
}

/** The same as feature state: the opacity of each texture. */
export function textureState(texture: number): Record<string, number> {
  return Object.fromEntries(TEXTURE_NAMES.map((name, i) => [name, i + 1 === texture ? 1 : 0]));
}

export const TEXTURE_NAMES = ['dots', 'hatch', 'faint'] as const;

/** Inks as the numbers that feature state holds: their place among all. */
export function codeOf(tone: Tone): number {
  return TONES.indexOf(tone);
}

const code: ExpressionSpecification = ['number', ['feature-state', 'tone'], codeOf('blank')];

/** All layers from the ground up, in the order, colours and widths of the picture at `scale` CSS pixels a unit. */
export function layers(palette: Palette, scale: number): LayerSpecification[] {
  const line = (id: string, filter: ExpressionSpecification, colour: string, width: number) =>
    lineLayer(id, filter, colour, Math.max(0.5, width * scale));
  return [
    {
      ...{ id: FILL, type: 'fill', source: FILLS },
      paint: { 'fill-antialias': false, 'fill-color': fillColour(palette) },
    },
    ...TEXTURE_NAMES.map(texture),
    faint(line('line-county', COUNTIES, palette.county, 0.8)),
    ofAreas(line('line-area', ['==', ['get', 'kind'], 'area'], palette.county, 0.8)),
    line('line-district', ['==', ['get', 'kind'], 'district'], palette.district, 1.1),
    line('line-state', ['==', ['get', 'kind'], 'state'], palette.state, 1.6),
    ofFront(line('front-halo', ALL, palette.sheet, 3.5)),
    dashed(ofFront(line('front', ALL, palette.ink, 1.5))),
  ];
}

/** Counties alone are of no kind that is told. */
export const COUNTIES: ExpressionSpecification = ['!', ['has', 'kind']];

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

export function fillColour(palette: Palette): ExpressionSpecification {
  const inks = TONES.flatMap((tone, i) => [i, palette.tones[tone]]);
  return ['match', code, ...inks, palette.sheet] as unknown as ExpressionSpecification;
}

/** Its state is its opacity as it stands, which costs least to renew. */
function texture(name: (typeof TEXTURE_NAMES)[number]): LayerSpecification {
  return {
    ...{ id: name, type: 'fill', source: TEXTURES },
    paint: { 'fill-pattern': name, 'fill-opacity': ['number', ['feature-state', name], 0] },
  };
}

function lineLayer(id: string, filter: ExpressionSpecification, colour: string, width: number): LineLayer {
  return {
    id,
    type: 'line',
    source: LINES,
    filter,
    layout: { 'line-join': 'round', 'line-cap': 'round' },
    paint: { 'line-color': colour, 'line-width': width },
  };
}
