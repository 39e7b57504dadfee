import { geoMercator, geoPath } from 'd3-geo';
import type { Feature, FeatureCollection } from 'geojson';
import type { County } from '../geography/types';
import { element, round, text } from './svg';

/** What a small map of candidate counties shows. */
export interface CandidateMap {
  /** Counties that may be meant, in the order of their numbers. */
  candidates: readonly County[];
  /** All counties; those near the candidates are drawn around them. */
  counties: readonly County[];
  /** Where the row says that the field is. */
  point: readonly [lon: number, lat: number] | null;
  width: number;
  height: number;
  /** Name for those who do not see it. */
  label: string;
}

const MARGIN = 0.18;
const FONT_SIZE = 13;

/**
 * Counties that may be meant, numbered as the answers are, with what lies around them and the point of the row.
 *
 * @returns SVG as text, in CSS classes `candidate-map-…`; '' where there is no candidate
 */
export function candidateMap({ candidates, counties, point, width, height, label }: CandidateMap): string {
  if (candidates.length === 0) return '';
  const shapes: FeatureCollection = { type: 'FeatureCollection', features: candidates.map(featureOf) };
  const [x, y] = [MARGIN * width, MARGIN * height];
  const projection = geoMercator().fitExtent(
    [
      [x, y],
      [width - x, height - y],
    ],
    shapes,
  );
  projection.clipExtent([
    [0, 0],
    [width, height],
  ]);
  const path = geoPath(projection);
  const known = new Set(candidates.map(({ fips }) => fips));
  const near = counties.filter(({ fips }) => !known.has(fips));
  const outline = (county: County, name: string) => {
    const d = path(featureOf(county));
    return d ? element('path', { class: `candidate-map-${name}`, d: shorter(d) }) : '';
  };
  const number = (county: County, at: number) => {
    const [cx, cy] = path.centroid(featureOf(county));
    return element(
      'text',
      {
        x: round(cx),
        y: round(cy),
        'text-anchor': 'middle',
        'font-size': FONT_SIZE,
        class: 'candidate-map-number',
      },
      text(`${at + 1} ${county.name}`),
    );
  };
  return element(
    'svg',
    { viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': label, class: 'candidate-map' },
    element('g', {}, ...near.map((county) => outline(county, 'around'))),
    element('g', {}, ...candidates.map((county) => outline(county, 'candidate'))),
    element('g', {}, ...candidates.map(number)),
    pointMark(projection(point ? [...point] : [Number.NaN, Number.NaN])),
  );
}

function pointMark(at: [number, number] | null): string {
  if (!at || at.some(Number.isNaN)) return '';
  const [cx, cy] = at.map(round);
  return element('circle', { cx, cy, r: 5, class: 'candidate-map-point' });
}

function featureOf({ geometry }: County): Feature {
  return { type: 'Feature', properties: {}, geometry };
}

/** Coordinates of a picture need no more than a tenth. */
function shorter(d: string): string {
  return d.replace(/\d+\.\d+/g, (digits) => String(round(Number(digits))));
}
