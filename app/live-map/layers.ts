import type {
  DataDrivenPropertyValueSpecification,
  ExpressionSpecification,
  LayerSpecification,
  LineLayerSpecification as LineLayer,
} from 'maplibre-gl';
import type { Palette } from './palette';
import type { DrawnLook } from './picture';

export const SOURCE = 'outlines';
export const FILL = 'fill';
/** Outlines of the areas of the map that is shown. */
export const AREAS = 'areas';

/** Looks as the numbers that feature state holds: the classes of share from 11 up. */
const CODES = { blank: 0, clean: 1, hidden: 2, confirmed: 10 } as const;

export function codeOf({ look, step }: DrawnLook): number {
  return CODES[look] + step;
}

const code: ExpressionSpecification = ['coalesce', ['feature-state', 'look'], CODES.blank];

/** All layers from the ground up, in the order, colours and widths of the picture at `scale` CSS pixels a unit. */
export function layers(palette: Palette, scale: number): LayerSpecification[] {
  const line = (id: string, filter: ExpressionSpecification, colour: string, width: number) =>
    lineLayer(id, filter, colour, Math.max(0.5, width * scale));
  return [
    { ...ground, id: FILL, paint: { 'fill-antialias': false, 'fill-color': fillColour(palette) } },
    { ...ground, id: 'dots', paint: { 'fill-pattern': 'dots', 'fill-opacity': only('clean') } },
    { ...ground, id: 'hatch', paint: { 'fill-pattern': 'hatch', 'fill-opacity': only('hidden') } },
    faint(line('line-county', ['==', ['get', 'kind'], 'county'], palette.county, 0.8)),
    ofAreas(line('line-area', ['==', ['get', 'kind'], 'area'], palette.county, 0.8)),
    line('line-district', ['==', ['get', 'kind'], 'district'], palette.district, 1.1),
    line('line-state', ['==', ['get', 'kind'], 'state'], palette.state, 1.6),
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
  const steps = palette.ramp.flatMap((colour, i) => [CODES.confirmed + i + 1, colour]);
  const looks = [CODES.clean, palette.clean, CODES.confirmed, palette.confirmed, ...steps];
  return ['match', code, ...looks, palette.sheet] as unknown as ExpressionSpecification;
}

function only(look: 'clean' | 'hidden'): DataDrivenPropertyValueSpecification<number> {
  return ['case', ['==', code, CODES[look]], 1, 0];
}

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
