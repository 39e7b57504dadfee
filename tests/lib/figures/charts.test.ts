import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { barsFigure, type EffortBar } from '@/lib/figures/bars-figure';
import { plainFill } from '@/lib/figures/looks';
import { type PlacePair, pairsFigure } from '@/lib/figures/pairs-figure';
import { type PanelWindow, panelFigure } from '@/lib/figures/panel-figure';
import { type RatioRow, ratiosFigure } from '@/lib/figures/ratios-figure';
import { type StackRow, stacksFigure } from '@/lib/figures/stacks-figure';
import { type TrendPoint, trendFigure } from '@/lib/figures/trend-figure';
import { fontOnPhone, overlaps } from './text-boxes';

// Everything here is invented.
const frame = { title: 'Invented', description: 'Invented.', stamp: 'Simulated data', prefix: 'c-' };

const point: fc.Arbitrary<Omit<TrendPoint, 'season'>> = fc
  .record({ withheld: fc.boolean(), tested: fc.nat(2000), part: fc.double({ min: 0, max: 1, noNaN: true }) })
  .map(({ withheld, tested, part }) => ({
    withheld,
    tested,
    resistant: Math.round(tested * part),
    low: Math.max(0, part - 0.1),
    high: Math.min(1, part + 0.1),
    unfinished: false,
  }));
const series = fc
  .array(point, { minLength: 1, maxLength: 20 })
  .map((points) =>
    points.map(
      (one, i): TrendPoint => ({ ...one, season: 2006 + i, unfinished: i > 3 && i === points.length - 1 }),
    ),
  );
const withOther = (points: readonly TrendPoint[], tested: number): TrendPoint[] =>
  points.map((one) => (one.withheld ? { ...one, tested, resistant: tested, low: 0, high: 1 } : one));

const words = {
  screened: 'screened',
  withheld: 'withheld',
  unfinished: 'still being screened',
  point: ({ season, tested }: TrendPoint) => `${season}: ${tested}`,
};
const trend = (points: readonly TrendPoint[]) =>
  trendFigure({ ...frame, points, words, size: { width: 360, height: 236 } });
const bars = (points: readonly TrendPoint[]) =>
  barsFigure({
    ...frame,
    bars: points.map(
      ({ season, withheld, unfinished, tested }): EffortBar => ({
        ...{ season, withheld, unfinished, tested },
        received: withheld ? null : tested + 9,
      }),
    ),
    words: { ...words, bar: ({ season, tested }) => `${season}: ${tested}` },
  });
const panel = (points: readonly TrendPoint[], windows: readonly PanelWindow[] = []) =>
  panelFigure({ ...frame, points, windows, words: { ...words, window: ({ first }) => `${first}` } });
const windowsOf = (points: readonly TrendPoint[]): PanelWindow[] =>
  points
    .filter((_, i) => i % 3 === 0 && i + 2 < points.length)
    .map(({ season, ...one }) => ({ ...one, first: season, last: season + 2 }));

/** Seasons between which a line is drawn. */
function joinedBy(svg: string): number {
  const d = /class="trend-line" d="([^"]*)"/.exec(svg)?.[1] ?? '';
  return (d.match(/L/g) ?? []).length;
}

describe('charts over seasons', () => {
  it('join neighbouring closed seasons that are both public, and no others: no bridge over a gap', () => {
    fc.assert(
      fc.property(series, (points) => {
        const shown = points.map(
          ({ withheld, tested, unfinished }) => !withheld && tested > 0 && !unfinished,
        );
        const neighbours = shown.filter((one, i) => one && shown[i + 1]).length;
        for (const svg of [trend(points), panel(points), panel(points, windowsOf(points))])
          expect(joinedBy(svg)).toBe(neighbours);
      }),
    );
  });

  it('look the same whatever is in a withheld season or window', () => {
    fc.assert(
      fc.property(series, fc.nat(3000), (points, tested) => {
        const other = withOther(points, tested);
        for (const draw of [trend, bars, panel]) expect(draw(other)).toBe(draw(points));
        expect(panel(other, windowsOf(other))).toBe(panel(points, windowsOf(points)));
      }),
    );
  });

  it('hatch each withheld season once, and nothing else', () => {
    fc.assert(
      fc.property(series, (points) => {
        const withheld = points.filter((one) => one.withheld).length;
        for (const draw of [trend, bars, panel])
          expect(draw(points).match(/class="withheld"/g)?.length ?? 0).toBe(withheld);
      }),
    );
  });

  it('have no two words over each other, and words of at least ten pixels on a phone', () => {
    fc.assert(
      fc.property(series, (points) => {
        for (const draw of [trend, bars]) {
          expect(overlaps(draw(points), 2)).toEqual([]);
          expect(fontOnPhone(draw(points))).toBeGreaterThanOrEqual(10);
        }
        const small = panel(points, windowsOf(points));
        expect(overlaps(small)).toEqual([]);
        expect(fontOnPhone(small, 2)).toBeGreaterThanOrEqual(9.5);
      }),
    );
  });

  it('have the same axes in panels of the same seasons, whatever they show', () => {
    const axes = (svg: string) => svg.match(/<path class="grid"[^>]*>|<text[^>]*>[^<]*<\/text>/g);
    fc.assert(
      fc.property(series, fc.nat(3000), (points, tested) => {
        const other = points.map((one) => ({ ...one, tested, resistant: 0, low: 0, high: 0.1 }));
        expect(axes(panel(other))).toEqual(axes(panel(points)));
      }),
    );
  });
});

describe('bars of effort', () => {
  it('are as high as their numbers say, the received never lower than the screened', () => {
    fc.assert(
      fc.property(series, (points) => {
        const svg = bars(points);
        const heights = [
          ...svg.matchAll(
            /<rect class="column-received"[^>]* height="([^"]*)"[^>]*\/><rect[^>]* height="([^"]*)"/g,
          ),
        ];
        const shown = points.filter(({ withheld }) => !withheld);
        expect(heights).toHaveLength(shown.length);
        const unit =
          Math.max(...heights.map(([, , tested]) => Number(tested))) /
          Math.max(1, ...shown.map(({ tested }) => tested));
        heights.forEach(([, received, tested], i) => {
          expect(Number(received)).toBeGreaterThanOrEqual(Number(tested));
          expect(Math.abs(Number(tested) - unit * shown[i]!.tested)).toBeLessThan(0.3);
        });
      }),
    );
  });
});

describe('rows of parts', () => {
  const looks = ['confirmed', 'clean', 'hidden', 'blank'] as const;
  const row = fc.tuple(fc.nat(300), fc.nat(300), fc.nat(300), fc.integer({ min: 1, max: 300 }));
  const rows = fc.array(row, { minLength: 1, maxLength: 7 }).map((all) =>
    all.map(
      (numbers, i): StackRow => ({
        name: `${2004 + 3 * i}–${2006 + 3 * i}`,
        parts: numbers.map((number, k) => ({
          ...{ number, said: `${looks[k]}: ${number}` },
          fill: plainFill(looks[k]!, null),
        })),
      }),
    ),
  );
  const draw = (all: readonly StackRow[]) => stacksFigure({ ...frame, rows: all });

  it('are as wide as their numbers, and fill the row', () => {
    fc.assert(
      fc.property(rows, (all) => {
        const widths = [...draw(all).matchAll(/<rect class="part[^>]* width="([\d.]+)"/g)].map(([, width]) =>
          Number(width),
        );
        const parts = all.flatMap(({ parts: own }) => own.filter(({ number }) => number > 0));
        expect(widths).toHaveLength(parts.length);
        let at = 0;
        for (const { parts: own } of all) {
          const total = own.reduce((sum, { number }) => sum + number, 0);
          for (const { number } of own.filter((part) => part.number > 0))
            expect(Math.abs(widths[at++]! - (2 * (360 - 84 - 8) * number) / total)).toBeLessThan(0.2);
        }
      }),
    );
  });

  it('have no two words over each other', () => {
    fc.assert(
      fc.property(rows, (all) => {
        expect(overlaps(draw(all))).toEqual([]);
      }),
    );
    expect(fontOnPhone(draw([]))).toBeGreaterThanOrEqual(10);
  });

  it('write no number where a part is not counted', () => {
    const part = { number: 1, fill: plainFill('hidden', null), said: 'withheld', counted: false };
    expect(draw([{ name: '2022–2024', parts: [part] }])).not.toContain('class="quiet"');
  });
});

describe('places compared with themselves', () => {
  const pairs: PlacePair[] = [
    { name: 'Colorado north-west plateaus', from: { share: 0, tested: 1024 }, to: { share: 1, tested: 999 } },
    { name: 'Kansas centre', from: { share: 0.5, tested: 9 }, to: { share: 0.25, tested: 12 } },
  ];
  const svg = pairsFigure({ ...frame, pairs, pair: ({ name }) => name });

  it('go from a hollow mark to a full one, each on its share', () => {
    const marks = [...svg.matchAll(/class="(mark[^"]*)" cx="([\d.]+)"/g)].map(([, look, at]) => [
      look,
      Number(at),
    ]);
    expect(marks).toEqual([
      ['mark open', 10],
      ['mark', 350],
      ['mark open', 180],
      ['mark', 95],
    ]);
  });

  it('have no two words over each other, on a phone too', () => {
    expect(overlaps(svg)).toEqual([]);
    expect(fontOnPhone(svg)).toBeGreaterThanOrEqual(10);
  });
});

describe('ratios', () => {
  const rows: RatioRow[] = [
    {
      name: 'Palmer amaranth, group 10',
      ratio: { value: 2.4, low: 0.9, high: 6.6 },
      said: '2.4 (0.9 to 6.6)',
    },
    { name: 'wild oat, group 1', ratio: { value: 0.001, low: 0.0001, high: 40 }, said: '0.001 (0 to 40)' },
    { name: 'Russian thistle, group 14', ratio: null, said: 'cannot be compared' },
  ];
  const svg = ratiosFigure({ ...frame, rows, less: 'fewer in 2024', more: 'more in 2024' });

  it('stand on a log axis: two and a half are as far from one as one is from two fifths', () => {
    const at = (value: number) =>
      Number(
        /class="mark" cx="([\d.]+)"/.exec(
          ratiosFigure({
            ...frame,
            rows: [{ name: '', ratio: { value, low: value, high: value }, said: '' }],
            less: '',
            more: '',
          }),
        )![1],
      );
    expect(at(2.5) - at(1)).toBeCloseTo(at(1) - at(0.4), 0);
  });

  it('end an interval that leaves the axis in an arrow, and draw none where there is none', () => {
    const intervals = [...svg.matchAll(/class="interval" d="([^"]*)"/g)].map(
      ([, d]) => d!.match(/M/g)!.length,
    );
    expect(intervals).toEqual([1, 3]);
    expect(svg.match(/class="mark"/g)).toHaveLength(1);
  });

  it('have no two words over each other, on a phone too', () => {
    expect(overlaps(svg)).toEqual([]);
    expect(fontOnPhone(svg)).toBeGreaterThanOrEqual(10);
  });
});
