import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DrawnPlace, type MapFigure, mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight, regionCamera, regionProjection } from '@/lib/figures/projection';
import { inventedSquares } from './invented-region';

const region = inventedSquares();
const place = (key: string, over: Partial<DrawnPlace>): DrawnPlace => ({
  place: key,
  name: `Square ${key}`,
  status: 'confirmed',
  share: 0.6,
  words: '6 of 10',
  ...over,
});
const PLACES = [
  place('90000', {}),
  place('90001', { status: 'none confirmed', share: 0, words: '0 of 9' }),
  place('91000', { status: 'no public information', share: null, words: '' }),
  place('91001', { status: 'not screened', share: null, words: '' }),
];
const size = { width: 120, height: fittedHeight(region, 120) };
const figure = (over: Partial<MapFigure> = {}): string =>
  mapFigure({
    region,
    grain: 'county',
    places: PLACES,
    size,
    title: 'Invented map',
    description: 'Four looks.',
    hiddenWords: 'No public information.',
    stamp: 'Simulated data',
    chosen: null,
    prefix: 'm-',
    ...over,
  });
const markupOf = (svg: string, key: string) =>
  new RegExp(`<path[^>]*data-place="${key}">.*?</path>`, 's').exec(svg)?.[0];

describe('the map as a picture', () => {
  it('is the stored picture of six invented counties, by county and by district', async () => {
    await expect(figure({ chosen: '90000' })).toMatchFileSnapshot('map-county.svg');
    const districts = [place('AA-1', {}), place('AA-2', { status: 'no public information' })];
    await expect(figure({ grain: 'district', places: districts })).toMatchFileSnapshot('map-district.svg');
  });

  it('draws a place without public information in one way, whatever else it is told of it', () => {
    const plain = markupOf(figure(), '91000');
    expect(plain).toMatch(/look-hidden/);
    fc.assert(
      fc.property(fc.option(fc.double({ min: 0, max: 1, noNaN: true })), fc.string(), (share, words) => {
        const told = PLACES.map((p) => (p.place === '91000' ? { ...p, share, words } : p));
        expect(figure({ places: told })).toBe(figure());
      }),
    );
  });

  it('tells its four looks apart by texture and not by colour alone', () => {
    const fills = PLACES.map((p) => /fill="([^"]+)"/.exec(markupOf(figure(), p.place)!)![1]);
    expect(fills).toEqual(['#9a4470', 'url(#m-dots)', 'url(#m-hatch)', '#ffffff']);
  });

  it('takes the fill of a layer, in lighter ink where it is faint, but for places without public information', () => {
    const fill = { tone: 'effort-3', faint: true } as const;
    const svg = figure({ places: PLACES.map((p) => ({ ...p, fill })) });
    expect(markupOf(svg, '90000')).toContain('class="effort-3 faint" fill="url(#m-faint-effort-3)"');
    expect(svg).toContain('<pattern id="m-faint-effort-3"');
    expect(markupOf(svg, '91000')).toBe(markupOf(figure(), '91000'));
    expect(markupOf(svg, '92000')).toContain('look-blank');
    expect(figure()).not.toContain('faint');
  });

  it('draws a front over the places: its rings, its origin, and its name at each ring that is seen', () => {
    const front = {
      origins: [
        {
          lon: -98.5,
          lat: 41,
          rings: [
            { label: 'by 2018', kilometres: 60 },
            { label: 'by 2090', kilometres: 9_000 },
          ],
        },
      ],
    };
    const svg = figure({ front, size: { ...size, width: 480, height: fittedHeight(region, 480) } });
    expect(svg.match(/class="front"/g)).toHaveLength(1);
    expect(svg).toContain('by 2018');
    expect(svg).not.toContain('by 2090');
    expect(figure()).not.toContain('front');
  });

  it('fills the frame with the district or state in focus, at the same size', () => {
    const focused = { ...size, focus: 'BB' };
    const projection = regionProjection(region, focused);
    const [west] = projection([-98, 41])!;
    const [east] = projection([-97, 41])!;
    const [, north] = projection([-98, 42])!;
    const [, south] = projection([-98, 40])!;
    expect(Math.min(west, north)).toBeGreaterThanOrEqual(7.99);
    expect(Math.max(east - (size.width - 8), south - (size.height - 36))).toBeLessThanOrEqual(0.01);
    expect(south - north).toBeGreaterThan(0.6 * size.height);
    expect(figure({ size: focused })).toContain(`viewBox="0 0 ${size.width} ${size.height}"`);
    expect(figure({ size: focused })).not.toBe(figure());
  });

  it('draws whole states where the map is by state', () => {
    const svg = figure({ grain: 'state', places: [place('AA', {})] });
    expect(svg.match(/data-place="(\w+)"/g)).toEqual(['data-place="AA"', 'data-place="BB"']);
  });

  it('draws a place that it is told nothing of as not screened', () => {
    expect(markupOf(figure(), '92000')).toContain('look-blank');
  });

  it('holds no style attribute and no script, and escapes what it is told', () => {
    const svg = figure({ title: '<script>"&', places: [place('90000', { name: '<b>' })] });
    expect(svg).not.toMatch(/ style=|<script|<b>/);
    expect(svg).toContain('&lt;script&gt;&quot;&amp;');
  });

  it('says that data are simulated, and only then', () => {
    expect(figure()).toContain('Simulated data');
    expect(figure({ stamp: null })).not.toContain('imulated');
  });
});

describe('the camera of the live map', () => {
  // The map library's own projection, from the definition of Web Mercator on 512-pixel tiles (OGC 17-083r4, annex D.1).
  it('puts every corner of a county where the picture has it', () => {
    const projection = regionProjection(region, size);
    const { lon, lat, zoom } = regionCamera(region, size);
    const world = 512 * 2 ** zoom;
    const mercator = (degrees: number) => Math.log(Math.tan(Math.PI / 4 + (degrees * Math.PI) / 360));
    for (const { geometry } of region.counties) {
      for (const [x, y] of geometry.coordinates[0] as [number, number][]) {
        const [px, py] = projection([x, y])!;
        expect(((x - lon) / 360) * world + size.width / 2).toBeCloseTo(px, 6);
        expect(((mercator(lat) - mercator(y)) / (2 * Math.PI)) * world + size.height / 2).toBeCloseTo(py, 6);
      }
    }
  });
});
