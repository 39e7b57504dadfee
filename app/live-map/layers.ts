import type {
  DataDrivenPropertyValueSpecification,
  ExpressionSpecification,
  LayerSpecification,
} from 'maplibre-gl';
import type { Palette } from './palette';
import type { DrawnLook } from './picture';

export const SOURCE = 'outlines';
export const FILL = 'fill';

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
    line('line-county', ['==', ['get', 'kind'], 'county'], palette.county, 0.8),
    line('line-district', ['==', ['get', 'kind'], 'district'], palette.district, 1.1),
    line('line-state', ['==', ['get', 'kind'], 'state'], palette.state, 1.6),
    line('line-pointed', NOWHERE, palette.ink, 1.8),
    line('line-chosen-halo', NOWHERE, palette.sheet, 4.5),
    line('line-chosen', NOWHERE, palette.ink, 2.5),
  ];
}

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

function lineLayer(
  id: string,
  filter: ExpressionSpecification,
  colour: string,
  width: number,
): LayerSpecification {
  return {
    id,
    type: 'line',
    source: SOURCE,
    filter,
    layout: { 'line-join': 'round', 'line-cap': 'round' },
    paint: { 'line-color': colour, 'line-width': width },
  };
}
