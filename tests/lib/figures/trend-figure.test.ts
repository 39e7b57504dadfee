import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type TrendFigure, type TrendPoint, trendFigure } from '@/lib/figures/trend-figure';

// Invented series.
const point = (season: number, over: Partial<TrendPoint> = {}): TrendPoint => ({
  season,
  withheld: false,
  tested: 20,
  resistant: 8,
  low: 0.22,
  high: 0.61,
  unfinished: false,
  ...over,
});
const WITHHELD = { withheld: true, tested: 0, resistant: 0, low: 0, high: 0 };
const SERIES = [
  point(2019),
  point(2020, { tested: 4, resistant: 2, low: 0.15, high: 0.85 }),
  point(2021, WITHHELD),
  point(2022),
  point(2023),
  point(2024, { tested: 0, resistant: 0, low: 0, high: 0 }),
  point(2025, { unfinished: true }),
];
const figure = (points: readonly TrendPoint[], over: Partial<TrendFigure> = {}) =>
  trendFigure({
    points,
    title: 'Invented place',
    description: 'Seven seasons.',
    words: {
      screened: 'screened',
      withheld: 'withheld',
      unfinished: 'still being screened',
      point: ({ season, tested, resistant }) => `${season}: ${resistant} of ${tested}`,
    },
    stamp: 'Simulated data',
    prefix: 't-',
    ...over,
  });
const lineOf = (svg: string) => /class="trend-line" d="([^"]*)"/.exec(svg)?.[1] ?? '';

describe('the trend as a picture', () => {
  it('is the stored picture of seven invented seasons', async () => {
    await expect(figure(SERIES)).toMatchFileSnapshot('trend.svg');
  });

  it('joins neighbouring public seasons only: a withheld season, one not screened and one under way break the line', () => {
    expect(lineOf(figure(SERIES)).match(/M/g)).toHaveLength(2);
    expect(lineOf(figure(SERIES)).match(/L/g)).toHaveLength(2);
  });

  it('draws a withheld season in one way, whatever numbers come with it', () => {
    fc.assert(
      fc.property(
        fc.nat(500),
        fc.nat(500),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (tested, resistant, low) => {
          const told = SERIES.map((p) => (p.withheld ? { ...p, tested, resistant, low, high: 1 } : p));
          expect(figure(told)).toBe(figure(SERIES));
        },
      ),
    );
  });

  it('writes a number under every season but the withheld ones, and zero where nothing was screened', () => {
    const numbers = [...figure(SERIES).matchAll(/class="quiet"[^>]*text-anchor="middle"[^>]*>([^<]*)</g)];
    expect(numbers.map(([, words]) => words)).toEqual(['20', '4', '20', '20', '0', '20']);
  });

  it('draws wide intervals in lighter ink', () => {
    const svg = figure(SERIES);
    expect(svg.match(/class="point uncertain"/g)).toHaveLength(1);
  });

  it('marks the season under way by an open mark, a dashed interval and a note', () => {
    const svg = figure(SERIES);
    expect(svg).toContain('class="mark open"');
    expect(svg).toContain('stroke-dasharray');
    expect(svg).toContain('* still being screened');
    expect(figure(SERIES.slice(0, 6))).not.toMatch(/mark open|stroke-dasharray|still being screened/);
  });

  it('holds no style attribute', () => {
    expect(figure(SERIES)).not.toContain(' style=');
  });
});
