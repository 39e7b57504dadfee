import { countiesOf, isAreaKey } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { PlaceStatus } from '@/lib/vocabulary/terms';
import { type Front, frontRings, type Point, ringLabelPoint } from './front';
import { type Fill, fillAttributes, INK, lookOf, plainFill, type Tone } from './looks';
import { patterns } from './patterns';
import { MARGIN, regionProjection, type Size } from './projection';
import { regionOutlines } from './region-outlines';
import { element, text } from './svg';

/** One place of the map. Whatever `share` and `words` say, a place without public numbers shows neither. */
export interface DrawnPlace {
  /** Key of a district or county; an area's counties joined by `+`. */
  place: string;
  /** Its name for readers: `Lancaster County, NE`. */
  name: string;
  status: PlaceStatus;
  /** Share in 0–1 where it is public; null for a status without a share. */
  share: number | null;
  /** What its title says after the name, in words: the numbers of a public place. */
  words: string;
  /** The fill that a layer gives it, in place of that of its status and share. */
  fill?: Fill;
}

export interface MapFigure {
  region: Region;
  grain: 'county' | 'district' | 'state';
  places: readonly DrawnPlace[];
  size: Size;
  /** A front to draw over the places; absent or null: none. */
  front?: Front | null;
  /** Name and description of the whole picture, for readers who do not see it. */
  title: string;
  description: string;
  /** What a title says of a place without public numbers, the same for all of them. */
  hiddenWords: string;
  /** Written into the picture where the data are simulated; null otherwise. */
  stamp: string | null;
  /** Key of a place to outline; null for none. */
  chosen: string | null;
  /** Keeps ids apart from other figures on the page. */
  prefix: string;
}

/**
 * Map of a region as an SVG picture: places in their four looks, district and state lines, state names.
 *
 * @returns markup with classes and presentation attributes only, no style attribute and no script; a place that is
 *   missing from `places` is drawn as not screened. Places without public information have the same markup but for
 *   their key, outline and name.
 */
export function mapFigure(figure: MapFigure): string {
  const { region, size, title, description, prefix } = figure;
  const outlines = regionOutlines(region, size);
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${size.width} ${size.height}`,
      class: `map map-${figure.grain}`,
      role: 'img',
      'aria-labelledby': `${prefix}title ${prefix}desc`,
    },
    element('title', { id: `${prefix}title` }, text(title)),
    element('desc', { id: `${prefix}desc` }, text(description)),
    patterns(prefix, faintTones(figure.places)),
    element(
      'g',
      { transform: 'scale(0.5)', 'stroke-linejoin': 'round' },
      placeAreas(figure),
      figure.grain === 'county' ? '' : lines('county', [...outlines.counties.values()], 0.4),
      joinedLines(figure),
      lines('district', [...outlines.districts.values()], 1.1),
      lines('state', [...outlines.states.values()], 1.6),
      frontLines(figure),
      chosenLine(figure),
    ),
    stateNames(figure),
    frontLabels(figure),
    figure.stamp ? stamp(figure.stamp, size) : '',
  );
}

function placeAreas({ region, grain, places, size, hiddenWords, prefix }: MapFigure): string {
  const outlines = regionOutlines(region, size);
  const drawn = new Map(places.map((place) => [place.place, place]));
  const joined = joinedCounties(places);
  const single = [...outlines[`${grain === 'county' ? 'countie' : grain}s`]];
  const paths = [
    ...single.filter(([key]) => !joined.has(key)),
    ...places.filter(isArea).map(({ place }) => [place, outlines.join(countiesOf(place))] as const),
  ];
  const areas = paths.map(([key, d]) => {
    const place = drawn.get(key);
    const status = place?.status ?? 'not screened';
    const hidden = status === 'no public information';
    const words = hidden ? hiddenWords : (place?.words ?? '');
    return element(
      'path',
      {
        ...fillAttributes(fillOf(place), prefix),
        d,
        'data-place': key,
      },
      element('title', {}, text(`${place?.name ?? key}\n${words}`.trimEnd())),
    );
  });
  return element(
    'g',
    {
      class: 'areas',
      'fill-rule': 'evenodd',
      stroke: grain === 'county' ? INK.county : 'none',
      'stroke-width': 0.8,
    },
    ...areas,
  );
}

/** Without public information no layer has a say. */
function fillOf(place: DrawnPlace | undefined): Fill {
  if (!place) return plainFill('blank', null);
  if (place.status === 'no public information') return plainFill('hidden', null);
  return place.fill ?? plainFill(lookOf(place.status), place.share);
}

function faintTones(places: readonly DrawnPlace[]): Tone[] {
  return places.map(fillOf).flatMap(({ tone, faint }) => (faint ? [tone] : []));
}

function isArea({ place }: DrawnPlace): boolean {
  return isAreaKey(place);
}

function joinedCounties(places: readonly DrawnPlace[]): Set<string> {
  return new Set(places.filter(isArea).flatMap(({ place }) => countiesOf(place)));
}

/** The counties inside areas, faintly. */
function joinedLines({ region, size, grain, places }: MapFigure): string {
  const joined = joinedCounties(places);
  if (grain !== 'county' || joined.size === 0) return '';
  const { counties } = regionOutlines(region, size);
  return element('path', {
    class: 'line-joined',
    d: [...joined].map((fips) => counties.get(fips)).join(''),
    fill: 'none',
    stroke: INK.county,
    'stroke-width': 0.6,
    'stroke-dasharray': '2 4',
    'pointer-events': 'none',
  });
}

function lines(kind: 'county' | 'district' | 'state', paths: readonly string[], width: number): string {
  return element('path', {
    class: `line-${kind}`,
    d: paths.join(''),
    fill: 'none',
    stroke: INK[kind],
    'stroke-width': 2 * width,
    'pointer-events': 'none',
  });
}

function chosenLine({ region, size, chosen }: MapFigure): string {
  const { counties, districts, states, join } = regionOutlines(region, size);
  const area = chosen !== null && isAreaKey(chosen);
  const d = area
    ? join(countiesOf(chosen))
    : chosen && (counties.get(chosen) ?? districts.get(chosen) ?? states.get(chosen));
  if (!d) return '';
  return ['line-chosen-halo', 'line-chosen']
    .map((name, i) =>
      element('path', {
        class: name,
        d,
        fill: 'none',
        stroke: i === 0 ? INK.paper : INK.text,
        'stroke-width': i === 0 ? 9 : 5,
        'pointer-events': 'none',
      }),
    )
    .join('');
}

function frontLines({ region, size, front }: MapFigure): string {
  if (!front) return '';
  const projection = regionProjection(region, size);
  const at = (point: Point) => projection(point)!.map((value) => Math.round(2 * value)) as [number, number];
  const rings = frontRings(front).map(({ line }) => `M${line.map((point) => at(point).join()).join('L')}z`);
  const origins = front.origins.map(({ lon, lat }) => {
    const [x, y] = at([lon, lat]);
    return `M${x - 12},${y}h24M${x},${y - 12}v24`;
  });
  return ['front-halo', 'front']
    .map((name, i) =>
      element(
        'g',
        {
          class: name,
          fill: 'none',
          stroke: i === 0 ? INK.paper : INK.text,
          'stroke-width': i === 0 ? 7 : 3,
          'pointer-events': 'none',
        },
        element('path', { d: rings.join(''), 'stroke-dasharray': i === 0 ? undefined : '10 7' }),
        element('path', { d: origins.join('') }),
      ),
    )
    .join('');
}

function frontLabels({ region, size, front }: MapFigure): string {
  if (!front) return '';
  const projection = regionProjection(region, size);
  return names(
    'front-names',
    frontRings(front).flatMap((ring) => {
      const point = ringLabelPoint(ring, (one) => isInside(projection(one)!, size));
      return point ? [[ring.label, projection(point)!] as const] : [];
    }),
    14,
  );
}

/** Far enough inside the frame for words to stand there. */
export function isInside([x, y]: readonly [number, number], { width, height }: Size): boolean {
  return x > 40 && x < width - 40 && y > 20 && y < height - 40;
}

function stateNames({ region, size }: MapFigure): string {
  const { labels } = regionOutlines(region, size);
  return names(
    'state-names',
    region.states.map(({ code, name }) => [name, labels.get(code)!] as const),
    17,
  );
}

function names(
  className: string,
  list: readonly (readonly [name: string, at: readonly [number, number]])[],
  fontSize: number,
): string {
  return element(
    'g',
    {
      class: className,
      'text-anchor': 'middle',
      'font-size': fontSize,
      'font-family': 'sans-serif',
      fill: INK.text,
      stroke: INK.paper,
      'stroke-width': 4,
      'stroke-linejoin': 'round',
      'paint-order': 'stroke',
      'pointer-events': 'none',
    },
    ...list.map(([name, [x, y]]) => element('text', { x: Math.round(x), y: Math.round(y) }, text(name))),
  );
}

function stamp(words: string, { width, height }: Size): string {
  return element(
    'text',
    {
      class: 'stamp',
      x: width - MARGIN,
      y: height - 9,
      'text-anchor': 'end',
      'font-size': 15,
      'font-weight': 'bold',
      'font-family': 'sans-serif',
      fill: INK.text,
    },
    text(words),
  );
}
