import { type GeoProjection, geoMercator, geoPath } from 'd3-geo';
import type { Region } from '@/lib/geography/types';
import type { Fips } from '@/lib/vocabulary/terms';
import { INK } from './looks';
import { element, round, text } from './svg';

export interface LocatorFigure {
  region: Region;
  /** The county that the picture is about. */
  county: Fips;
  /** Name of the picture, for readers who do not see it. */
  title: string;
  /** In user units. */
  size: { width: number; height: number };
}

/**
 * A small picture of where a county lies: it and the counties that touch it, each with its name, and what lies behind
 * them. It shows no numbers and no looks.
 *
 * @returns markup with classes and presentation attributes only
 * @throws RangeError for a county that is not of the region
 */
export function locatorFigure({ region, county, title, size }: LocatorFigure): string {
  const at = region.counties.findIndex(({ fips }) => fips === county);
  if (at < 0) throw new RangeError(`${region.name} has no county ${county}.`);
  const own = region.counties[at]!;
  const beside = region.neighbours[at]!.map((other) => region.counties[other]!);
  const projection = fitted([own, ...beside], size);
  const path = geoPath(projection);
  const outline = ({ geometry }: Region['counties'][number]) =>
    (path(geometry) ?? '').replace(/-?\d+\.\d+/g, (number) => String(round(Number(number))));
  const inSight = region.counties.filter((other) => other !== own && isInSight(projection, other, size));
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      ...{ viewBox: `0 0 ${size.width} ${size.height}`, class: 'locator', role: 'img' },
    },
    element('title', {}, text(title)),
    element(
      'g',
      { fill: 'none', class: 'locator-beyond', stroke: INK.county },
      ...inSight
        .filter((other) => !beside.includes(other))
        .map((other) => element('path', { d: outline(other) })),
    ),
    element(
      'g',
      { class: 'locator-beside', fill: INK.paper, stroke: INK.district },
      ...beside.map((other) => element('path', { d: outline(other) })),
    ),
    element('path', { class: 'locator-own', d: outline(own), fill: INK.state, stroke: INK.state }),
    element(
      'g',
      { class: 'locator-names', 'font-size': 12, 'text-anchor': 'middle', 'aria-hidden': 'true' },
      ...beside.map((other) => name(projection, other, 'beside')),
      name(projection, own, 'own'),
    ),
  );
}

type County = Region['counties'][number];

function fitted(counties: readonly County[], { width, height }: LocatorFigure['size']): GeoProjection {
  return geoMercator().fitExtent(
    [
      [EDGE, EDGE],
      [width - EDGE, height - EDGE],
    ],
    {
      type: 'FeatureCollection',
      features: counties.map(({ geometry }) => ({ type: 'Feature', properties: {}, geometry })),
    },
  );
}

const EDGE = 10;

function isInSight(
  projection: GeoProjection,
  { geometry }: County,
  { width, height }: LocatorFigure['size'],
) {
  const [[west, north], [east, south]] = geoPath(projection).bounds(geometry);
  return east > 0 && west < width && south > 0 && north < height;
}

function name(projection: GeoProjection, { lon, lat, name: words }: County, which: 'own' | 'beside'): string {
  const [x, y] = projection([lon, lat])!;
  return element('text', { class: `locator-${which}-name`, x: round(x), y: round(y + 4) }, text(words));
}
