import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { periodsOf, viewWith } from '@/app/view/choices';
import { parseView } from '@/app/view/parse-view';
import { GRAINS, LAYERS, viewHref } from '@/app/view/view';
import type { ReleaseHead } from '@/lib/release/types';
import { inventedRegion, inventedRelease } from '../invented-release';

const region = inventedRegion();
const head: ReleaseHead = { ...inventedRelease().draft.head, number: 1, files: [] };
const parse = (parameters: Parameters<typeof parseView>[0]) => parseView(parameters, head, region);
const readAddress = (href: string) => parse(Object.fromEntries(new URL(href, 'http://x').searchParams));

describe('the address of a view', () => {
  it('brings back the view that it was made from', () => {
    const views = fc.record({
      pair: fc.constantFrom(...head.pairs),
      window: fc.constantFrom('all' as const, ...head.windows),
      by: fc.constantFrom(...GRAINS),
      layer: fc.constantFrom(...LAYERS),
      place: fc.constantFrom('region', 'NE', region.districts[3]!.code, '31109'),
    });
    fc.assert(
      fc.property(views, ({ pair, window, by, layer, place }) => {
        const view = { ...pair, window, by, layer, place, release: 1 };
        expect(readAddress(viewHref('en', view))).toEqual({ view, misfits: [] });
      }),
    );
  });

  it('without parameters shows the first pair in the last window, by county, for the whole region, and complains of nothing', () => {
    const view = {
      ...head.pairs[0],
      window: { first: 2022, last: 2024 },
      by: 'county',
      layer: 'share',
      place: 'region',
      release: 1,
    };
    expect(parse({})).toEqual({ view, misfits: [] });
    expect(parse({ species: '', group: [] }).misfits).toEqual([]);
  });

  it('names what the release does not have and shows something that it has, whatever is asked', () => {
    expect(parse({ species: 'KCHSC', group: '10', window: '2020-2022' })).toMatchObject({
      view: { species: 'KCHSC', group: 9, window: { first: 2022, last: 2024 } },
      misfits: [
        { parameter: 'group', asked: '10' },
        { parameter: 'window', asked: '2020-2022' },
      ],
    });
    fc.assert(
      fc.property(fc.string({ minLength: 1 }), fc.string({ minLength: 1 }), (species, place) => {
        const { view } = parse({ species, place });
        expect(head.pairs).toContainEqual({ species: view.species, group: view.group });
      }),
    );
  });

  it('has single seasons where the grain shows them, the one under way for states alone', () => {
    const season = (year: number) => ({ first: year, last: year });
    const pair = { species: 'KCHSC', group: '9' };
    for (const by of ['district', 'state'])
      expect(parse({ ...pair, by, window: '2019' })).toMatchObject({
        view: { window: season(2019) },
        misfits: [],
      });
    expect(parse({ ...pair, by: 'state', window: '2025' }).view.window).toEqual(season(2025));
    for (const [by, window] of [
      ['county', '2019'],
      ['district', '2025'],
    ])
      expect(parse({ ...pair, by, window }).misfits).toEqual([{ parameter: 'window', asked: window }]);
    // Clusters are looked for in windows alone, and how it spreads is known by district.
    expect(parse({ ...pair, by: 'district', window: '2019', layer: 'clusters' }).misfits).toHaveLength(1);
    expect(parse({ ...pair, by: 'county', window: '2019', layer: 'spread' }).misfits).toEqual([]);
  });

  it('leads from each view to another that has no misfit, by every grain and layer', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...head.pairs),
        fc.constantFrom(...GRAINS),
        fc.constantFrom(...LAYERS),
        fc.constantFrom(...GRAINS),
        fc.constantFrom(...LAYERS),
        fc.nat(30),
        (pair, by, layer, nextBy, nextLayer, at) => {
          const { windows, seasons } = periodsOf(head, pair, layer, by);
          const periods = [...windows, ...seasons, 'all' as const];
          const window = periods[at % periods.length]!;
          const view = { ...pair, window, by, layer, place: 'region', release: 1 };
          for (const change of [{ by: nextBy }, { layer: nextLayer }])
            expect(readAddress(viewHref('en', viewWith(head, view, change))).misfits).toEqual([]);
        },
      ),
    );
  });

  it('finds a county by its name in words, asks which where it could be several, and says where there is none', () => {
    const found = (words: string) => parse({ find: words });
    for (const words of ['Red Willow County, NE', 'red willow', 'RED  WILLOW', 'red willow ne', 'red wil'])
      expect(found(words).view.place, words).toBe('31145');
    const lincoln = found('Lincoln County');
    expect(lincoln.view.place).toBe('region');
    expect(lincoln.misfits[0]!.several).toEqual(
      expect.arrayContaining(['Lincoln County, KS', 'Lincoln County, NE', 'Lincoln County, CO']),
    );
    expect(found('lincoln, ne').view.place).toBe('31111');
    expect(found('Nowhere').misfits).toEqual([{ parameter: 'find', asked: 'Nowhere' }]);
    expect(found('  ').misfits).toEqual([]);
  });

  it('takes the first of a repeated parameter', () => {
    expect(parse({ by: ['district', 'county'] }).view.by).toBe('district');
  });
});
