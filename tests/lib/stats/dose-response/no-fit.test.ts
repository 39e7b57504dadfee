import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { effectiveDose } from '@/lib/stats/dose-response/effective-dose';
import { type BinomialOptions, fitBinomial } from '@/lib/stats/dose-response/fit-binomial';
import { fitContinuous } from '@/lib/stats/dose-response/fit-continuous';
import { resistanceIndex } from '@/lib/stats/dose-response/resistance-index';
import type { NoFit, NoFitReason } from '@/lib/stats/dose-response/types';
import { holdsNaN } from './invented';

// All counts and weights here are invented.
const FIVE = [0.25, 0.5, 1, 2, 4];
const of40 = (
  alive: readonly number[],
  dose: readonly number[] = FIVE,
  options: Partial<BinomialOptions> = {},
) => fitBinomial({ dose, alive, treated: alive.map(() => 40) }, options);

describe('counts without a curve say why', () => {
  it.each<[string, ReturnType<typeof of40>, Partial<NoFit>]>([
    ['two doses', of40([30, 10], [1, 2]), { reason: 'too few doses' }],
    ['two doses beside untreated plants', of40([40, 30, 10], [0, 1, 2]), { reason: 'too few doses' }],
    [
      'three doses for four parameters',
      of40([35, 20, 5], [1, 2, 4], { lower: 'free', upper: 'free' }),
      { reason: 'too few doses', curve: null },
    ],
    ['no plant lived', of40([0, 0, 0, 0, 0]), { reason: 'all dead', above: null, below: 0.25 }],
    [
      'no plant lived, and untreated plants did not either',
      of40([10, 0, 0, 0, 0], [0, 0.5, 1, 2, 4], { upper: 'free' }),
      { reason: 'all dead', above: null, below: null },
    ],
    ['no plant died', of40([40, 40, 40, 40, 40]), { reason: 'all alive', above: 4, below: null }],
    [
      'untreated plants died, though none should',
      of40([38, 30, 20, 8, 1], [0, 0.5, 1, 2, 4]),
      { reason: 'untreated response' },
    ],
    ['survivors at random', of40([20, 22, 19, 21, 20]), { reason: 'no response', above: null, below: null }],
    ['a decline that chance makes in one of four', of40([24, 22, 21, 20, 19]), { reason: 'no response' }],
    ['nearly all live at all doses', of40([39, 38, 39, 38, 39]), { reason: 'no response', above: 4 }],
    ['nearly all die at all doses', of40([1, 2, 1, 2, 1]), { reason: 'no response', below: 0.25 }],
    ['survival that falls and rises', of40([38, 10, 36, 12, 4]), { reason: 'not monotone' }],
    [
      'all alive, then all dead',
      of40([40, 40, 40, 0, 0]),
      { reason: 'perfect separation', above: 1, below: 2 },
    ],
    ['one dose of both', of40([40, 40, 15, 0, 0]), { reason: 'perfect separation', above: 0.5, below: 2 }],
    [
      'a step between free limits',
      of40([30, 31, 30, 5, 5], FIVE, { lower: 'free', upper: 'free' }),
      { reason: 'step', below: 2 },
    ],
    [
      'limits that the doses do not show',
      // Found by a search of invented series.
      fitBinomial(
        { dose: [0, 0.25, 0.5, 1, 2, 4], treated: [40, 3, 10, 3, 3, 10], alive: [40, 1, 4, 0, 0, 1] },
        { lower: 'free', upper: 'free' },
      ),
      { reason: 'no convergence', curve: null },
    ],
  ])('%s', (_, fit, expected) => {
    expect(fit).toMatchObject({ kind: 'no fit', ...expected });
    says(fit as NoFit);
  });

  it('names the curve of several', () => {
    const dose = [...FIVE, ...FIVE];
    const alive = [38, 30, 20, 8, 1, 0, 0, 0, 0, 0];
    const curve = dose.map((_, row) => Number(row >= 5));
    const fit = fitBinomial({ dose, alive, treated: alive.map(() => 40), curve });
    expect(fit).toMatchObject({ reason: 'all dead', curve: 1, message: expect.stringMatching(/^Curve 1: /) });
    const gap = fitBinomial({
      dose: FIVE,
      alive: [38, 30, 20, 8, 1],
      treated: FIVE.map(() => 40),
      curve: FIVE.map(() => 2),
    });
    expect(gap).toMatchObject({ reason: 'too few doses', curve: 0 });
  });

  it('takes no tray, or trays without plants, as too few doses', () => {
    expect(fitBinomial({ dose: [], alive: [], treated: [] })).toMatchObject({ reason: 'too few doses' });
    const empty = { dose: FIVE, alive: [0, 0, 0, 0, 0], treated: [0, 0, 0, 0, 0] };
    expect(fitBinomial(empty)).toMatchObject({ reason: 'too few doses' });
  });
});

describe('weights without a curve say why', () => {
  const twice = (means: readonly number[], dose: readonly number[], scatter = 0.1) => ({
    dose: dose.flatMap((d) => [d, d]),
    response: means.flatMap((y) => [y - scatter, y + scatter]),
  });
  it.each<[string, ReturnType<typeof fitContinuous>, Partial<NoFit>]>([
    ['two doses', fitContinuous(twice([10, 5, 1], [0, 1, 2])), { reason: 'too few doses' }],
    [
      'as many pots as parameters',
      fitContinuous({ dose: [0, 1, 2, 4], response: [10, 8, 4, 1] }, { lower: 'free' }),
      { reason: 'too few observations' },
    ],
    [
      'the same weight everywhere',
      fitContinuous(twice([5, 5, 5, 5], [0, 1, 2, 4], 0)),
      { reason: 'no response' },
    ],
    [
      'no loss beyond the scatter',
      fitContinuous(twice([10, 10.1, 9.9, 10], [0, 1, 2, 4], 0.5)),
      { reason: 'no response', above: 4 },
    ],
    [
      'weights that fall and rise',
      fitContinuous(twice([10, 2, 9, 1, 0.5], [0, 0.5, 1, 2, 4])),
      { reason: 'not monotone' },
    ],
    [
      'a beginning of a decline, and no lower limit',
      // Found by a search of invented series.
      fitContinuous(
        { dose: [0, 0.25, 0.5, 1, 2, 4], response: [10.05, 9.82, 8.6, 8.15, 7.72, 5.41] },
        { lower: 'free', upper: 10 },
      ),
      { reason: 'no convergence', curve: null },
    ],
    [
      'a step',
      fitContinuous(twice([10, 10, 10, 2, 2], [0, 0.5, 1, 2, 4]), { lower: 'free' }),
      { reason: 'step', above: 1, below: 2 },
    ],
    [
      'a first dose that took all',
      fitContinuous(twice([10, 2, 2, 2, 2], [0, 0.5, 1, 2, 4]), { lower: 'free' }),
      { reason: 'step', above: 0, below: 0.5 },
    ],
  ])('%s', (_, fit, expected) => {
    expect(fit).toMatchObject({ kind: 'no fit', ...expected });
    says(fit as NoFit);
  });
});

describe('any counts and any weights', () => {
  const limit = fc.constantFrom('free' as const, 0);
  const top = fc.constantFrom('free' as const, 1);
  const tray = fc.record({
    dose: fc.constantFrom(0, 0.01, 0.25, 0.5, 1, 2, 4, 100),
    treated: fc.integer({ min: 0, max: 12 }),
    share: fc.constantFrom(0, 0, 0.5, 1, 1, 0.9),
    curve: fc.integer({ min: 0, max: 1 }),
  });

  it('give numbers or a reason in words, never NaN', () => {
    const seen = new Set<NoFitReason | 'fit'>();
    fc.assert(
      fc.property(
        fc.array(tray, { maxLength: 24 }),
        limit,
        top,
        fc.boolean(),
        (trays, lower, upper, heterogeneity) => {
          const columns = {
            dose: trays.map(({ dose }) => dose),
            curve: trays.map(({ curve }) => curve),
          };
          const counts = {
            ...columns,
            treated: trays.map(({ treated }) => treated),
            alive: trays.map(({ treated, share }) => Math.round(treated * share)),
          };
          const weights = {
            ...columns,
            response: trays.map(({ share, treated }) => share * 10 + treated / 10),
          };
          for (const fit of [
            fitBinomial(counts, { lower, upper, heterogeneity }),
            fitContinuous(weights, { lower, upper: upper === 1 ? 20 : upper }),
          ]) {
            seen.add(fit.kind === 'fit' ? 'fit' : fit.reason);
            expect(holdsNaN(fit)).toBe(false);
            if (fit.kind === 'no fit') says(fit);
            else {
              const all = fit.curves.flatMap((_, curve) =>
                [10, 50, 90].map((p) => effectiveDose(fit, p, { curve })),
              );
              expect(holdsNaN(all)).toBe(false);
              if (fit.curves.length > 1) expect(holdsNaN(resistanceIndex(fit))).toBe(false);
            }
          }
        },
      ),
      { numRuns: 1500, seed: 1 },
    );
    expect(seen.size).toBeGreaterThan(6);
  });
});

describe('what is no data is refused', () => {
  const good = { dose: FIVE, treated: FIVE.map(() => 40), alive: [38, 30, 20, 8, 1] };
  it.each([
    ['a negative dose', () => fitBinomial({ ...good, dose: [-1, 1, 2, 4, 8] }), 'bad argument'],
    [
      'a dose that is no number',
      () => fitBinomial({ ...good, dose: [Number.NaN, 1, 2, 4, 8] }),
      'bad argument',
    ],
    ['more alive than treated', () => fitBinomial({ ...good, alive: [41, 30, 20, 8, 1] }), 'bad count'],
    ['a lacking count', () => fitBinomial({ ...good, alive: [38, 30, 20, 8] }), 'bad argument'],
    ['half a curve', () => fitBinomial({ ...good, curve: [0, 0, 0.5, 0, 0] }), 'bad argument'],
    ['limits that cross', () => fitBinomial(good, { lower: 1, upper: 0 }), 'bad argument'],
    [
      'a weight that is none',
      () => fitContinuous({ dose: FIVE, response: FIVE, weight: [1, 1, -1, 1, 1] }),
      'bad argument',
    ],
    [
      'an infinite response',
      () => fitContinuous({ dose: [1], response: [Number.POSITIVE_INFINITY] }),
      'bad argument',
    ],
    ['an effect of 100 %', () => effectiveDose(fitBinomial(good) as never, 100), 'bad argument'],
    [
      'a curve that is not there',
      () => effectiveDose(fitBinomial(good) as never, 50, { curve: 1 }),
      'bad argument',
    ],
    [
      'a curve against itself',
      () => resistanceIndex(fitBinomial(good) as never, { curve: 0 }),
      'bad argument',
    ],
  ])('%s', (_, work, code) => {
    expect(work).toThrow(expect.objectContaining({ code, message: expect.stringMatching(/\w/) }));
  });
});

/** A message is words with an end, and names doses that are in order. */
function says({ message, above, below }: NoFit): void {
  expect(message).toMatch(/^(Curve \d: )?[a-z0-9].{20,}\.$/);
  expect(message).not.toMatch(/null|undefined|NaN/);
  if (above !== null && below !== null) expect(above).toBeLessThan(below);
}
