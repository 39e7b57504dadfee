import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseView } from '@/app/view/parse-view';
import { viewHref } from '@/app/view/view';
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
      by: fc.constantFrom('county' as const, 'district' as const),
      place: fc.constantFrom('region', 'NE', region.districts[3]!.code, '31109'),
    });
    fc.assert(
      fc.property(views, ({ pair, window, by, place }) => {
        const view = { ...pair, window, by, place };
        expect(readAddress(viewHref('en', view))).toEqual({ view, misfits: [] });
      }),
    );
  });

  it('without parameters shows the first pair in the last window, by county, for the whole region, and complains of nothing', () => {
    const view = { ...head.pairs[0], window: { first: 2022, last: 2024 }, by: 'county', place: 'region' };
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

  it('takes the first of a repeated parameter', () => {
    expect(parse({ by: ['district', 'county'] }).view.by).toBe('district');
  });
});
