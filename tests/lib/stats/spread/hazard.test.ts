import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StatsError } from '@/lib/stats/errors';
import { Random } from '@/lib/stats/random';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { atRisk } from '@/lib/stats/spread/at-risk';
import { chanceOfFind } from '@/lib/stats/spread/hazard/chance-of-find';
import { checkHazard } from '@/lib/stats/spread/hazard/check-hazard';
import { foundNeighbourNumber } from '@/lib/stats/spread/hazard/exposures';
import { fitHazard } from '@/lib/stats/spread/hazard/fit-hazard';
import type { HazardFit } from '@/lib/stats/spread/hazard/types';
import type { AtRisk, SeasonCounts } from '@/lib/stats/spread/types';
import { buildWeights } from '@/lib/stats/weights';
import { counted, NOTHING_TO_COMPARE } from './invented-counts';

/** Rows of one season unless told otherwise, each of its own place. */
function panelOf(
  isNew: readonly number[],
  tested: readonly number[] = isNew.map(() => 1),
  season?: readonly number[],
): AtRisk {
  return Object.freeze({
    offsets: Int32Array.of(0, isNew.length),
    season: Int32Array.from(season ?? isNew.map(() => 0)),
    place: Int32Array.from(isNew.keys()),
    tested: Int32Array.from(tested),
    isNew: Uint8Array.from(isNew),
  });
}

/** Invented: 600 rows in 4 seasons, chance 1 − exp(−tested · exp(−3 + value)). */
function simulated(seed: number) {
  const random = new Random(seed);
  const rows = Array.from({ length: 600 }, (_, row) => {
    const tested = 1 + random.below(4);
    const value = 2 * random.uniform();
    const chance = 1 - Math.exp(-tested * Math.exp(-3 + value));
    return { tested, value, season: Math.floor(row / 150), isNew: Number(random.uniform() < chance) };
  });
  const panel = panelOf(
    rows.map(({ isNew }) => isNew),
    rows.map(({ tested }) => tested),
    rows.map(({ season }) => season),
  );
  return { panel, values: rows.map(({ value }) => value), seasons: [2015, 2016, 2017, 2018] };
}

const fitted = (...args: Parameters<typeof fitHazard>) => {
  const found = fitHazard(...args);
  if (found.kind !== 'fit') throw new Error(found.message);
  return found;
};

describe('the hazard of a first find', () => {
  it('of two groups with one population each is −log(1 − share), and its ratio theirs', () => {
    const part = fc
      .integer({ min: 2, max: 30 })
      .chain((n) => fc.tuple(fc.integer({ min: 1, max: n - 1 }), fc.constant(n)));
    fc.assert(
      fc.property(part, part, ([a, n], [b, m]) => {
        fc.pre(a + b > 1);
        const news = (found: number, all: number) => Array.from({ length: all }, (_, i) => Number(i < found));
        const panel = panelOf([...news(a, n), ...news(b, m)]);
        const values = [...Array(n).fill(1), ...Array(m).fill(0)];
        const found = fitted(panel, [2015], [{ name: 'near', values }], { seasons: 'none' });
        const ratio = Math.log(1 - a / n) / Math.log(1 - b / m);
        expect(found.estimates[0]!.hazardRatio / ratio).toBeCloseTo(1, 6);
        const { chance } = chanceOfFind(found, { values: [[1, 0, 1]], tested: [1, 1, 2] });
        expect(chance[0]).toBeCloseTo(a / n, 7);
        expect(chance[1]).toBeCloseTo(b / m, 7);
        expect(chance[2]).toBeCloseTo(1 - (1 - a / n) ** 2, 7);
      }),
    );
  });

  it('is least unlikely where it is fitted: no step in any direction makes the finds more likely', () => {
    const { panel, values, seasons } = simulated(1);
    const found = fitted(panel, seasons, [{ name: 'value', values }]);
    const logLikelihood = (theta: Float64Array) =>
      panel.isNew.reduce((sum, isNew, row) => {
        const eta = theta[0]! * values[row]! + theta[1 + panel.season[row]!]!;
        const clean = -panel.tested[row]! * Math.exp(eta);
        return sum + (isNew ? Math.log(-Math.expm1(clean)) : clean);
      }, 0);
    expect(logLikelihood(found.theta)).toBeCloseTo(found.logLikelihood, 9);
    for (let k = 0; k < found.theta.length; k += 1) {
      for (const step of [-1e-3, 1e-3]) {
        const moved = found.theta.map((each, j) => (j === k ? each + step : each));
        expect(logLikelihood(moved)).toBeLessThan(found.logLikelihood);
      }
    }
    expect(found.estimates[0]!.low).toBeLessThan(Math.E);
    expect(found.estimates[0]!.high).toBeGreaterThan(Math.E);
  });

  it('expects of its own rows as many finds as there were nearly, and tells them again when asked', () => {
    const { panel, values, seasons } = simulated(2);
    const found = fitted(panel, seasons, [{ name: 'value', values }]);
    for (const season of [0, 3]) {
      const rows = [...panel.season.keys()].filter((row) => panel.season[row] === season);
      const { chance, low, high } = chanceOfFind(found, {
        values: [rows.map((row) => values[row]!)],
        tested: rows.map((row) => panel.tested[row]!),
        season,
      });
      rows.forEach((row, k) => {
        expect(chance[k]).toBeCloseTo(found.fitted[row]!, 12);
        expect(low[k]).toBeLessThan(chance[k]!);
        expect(high[k]).toBeGreaterThan(chance[k]!);
      });
    }
  });

  it('in a mean season lies between the seasons; on a line it follows it', () => {
    const { panel, values, seasons } = simulated(3);
    const terms = [{ name: 'value', values }];
    const effects = fitted(panel, seasons, terms);
    const at = (season?: number) => chanceOfFind(effects, { values: [[1]], tested: [2], season }).chance[0]!;
    const each = [0, 1, 2, 3].map(at);
    expect(at()).toBeGreaterThan(Math.min(...each));
    expect(at()).toBeLessThan(Math.max(...each));
    const line = fitted(panel, seasons, terms, { seasons: 'linear' });
    const log = (season: number) =>
      Math.log(-Math.log(1 - chanceOfFind(line, { values: [[1]], tested: [1], season }).chance[0]!));
    expect(log(2019) - log(2018)).toBeCloseTo(line.estimates[1]!.value, 10);
  });

  it('does not depend on the order of rows', () => {
    const { panel, values, seasons } = simulated(4);
    const order = [...values.keys()].reverse();
    const turned = {
      ...panel,
      season: Int32Array.from(order, (row) => panel.season[row]!),
      place: Int32Array.from(order, (row) => panel.place[row]!),
      tested: Int32Array.from(order, (row) => panel.tested[row]!),
      isNew: Uint8Array.from(order, (row) => panel.isNew[row]!),
    };
    const one = fitted(panel, seasons, [{ name: 'value', values }]);
    const other = fitted(turned, seasons, [{ name: 'value', values: order.map((row) => values[row]!) }]);
    expect(other.estimates[0]!.value).toBeCloseTo(one.estimates[0]!.value, 9);
    expect(other.estimates[0]!.standardError).toBeCloseTo(one.estimates[0]!.standardError, 9);
  });

  it('counts several rows of a place once: doubling all rows leaves the clustered error, and halves the variance of the other', () => {
    const { panel, values, seasons } = simulated(5);
    const twice = <T>(list: ArrayLike<T>) => [...Array.from(list), ...Array.from(list)];
    const double = {
      ...panel,
      season: Int32Array.from(twice(panel.season)),
      place: Int32Array.from(twice(panel.place)),
      tested: Int32Array.from(twice(panel.tested)),
      isNew: Uint8Array.from(twice(panel.isNew)),
    };
    const one = fitted(panel, seasons, [{ name: 'value', values }]).estimates[0]!;
    const two = fitted(double, seasons, [{ name: 'value', values: twice(values) }]).estimates[0]!;
    expect(two.standardError / one.standardError).toBeCloseTo(1, 8);
    expect(two.modelStandardError / one.modelStandardError).toBeCloseTo(Math.SQRT1_2, 8);
  });
});

describe('no hazard is told', () => {
  const pair = buildWeights([[1], [0]], 'binary');
  it.each<readonly [string, SeasonCounts]>([
    ...NOTHING_TO_COMPARE,
    [
      'places tested once',
      counted([
        [
          [0, 1],
          [0, 0],
        ],
        [
          [0, 0],
          [1, 1],
        ],
      ]),
    ],
  ])('of %s: too few finds', (_, counts) => {
    const known = arrivals(counts);
    const panel = atRisk(counts, known);
    const term = foundNeighbourNumber(panel, known, pair);
    for (const seasons of ['effects', 'linear', 'none'] as const) {
      expect(fitHazard(panel, counts.seasons, [term], { seasons })).toMatchObject({
        kind: 'no fit',
        reason: 'too few finds',
      });
    }
  });

  it('where an exposure is the same everywhere, without end, or follows from another', () => {
    const panel = panelOf([1, 1, 1, 0, 0, 0, 0, 0]);
    const near = { name: 'near', values: [1, 1, 1, 0, 0, 0, 0, 0] };
    const mixed = { name: 'mixed', values: [1, 0, 1, 0, 1, 0, 0, 0] };
    const again = { name: 'again', values: mixed.values.map((value) => 2 * value + 1) };
    const reasonOf = (...terms: { name: string; values: number[] }[]) => {
      const found = fitHazard(panel, [2015], terms);
      return found.kind === 'fit' ? null : found.reason;
    };
    expect(reasonOf({ name: 'same', values: Array(8).fill(1) })).toBe('one value');
    expect(reasonOf(near)).toBe('separated');
    expect(reasonOf(mixed, again)).toBe('dependent');
    expect(reasonOf(mixed)).toBe(null);
  });

  it('where likelihood gains no more but the effect still grows', () => {
    // Invented: whatever lies near is found, so the hazard of what lies half as near is any number that is high enough.
    const panel = panelOf([0, 1, 1, 1, 1, 1], [2, 1, 1, 2, 3, 4]);
    const near = { name: 'near', values: [0, 0, 0, 0, 1, 0.5] };
    const found = fitHazard(panel, [2015], [near], { seasons: 'none' });
    expect(found).toMatchObject({ kind: 'no fit', reason: 'separated' });
  });

  it('of numbers that are none', () => {
    const panel = panelOf([1, 1, 1, 0, 0]);
    const fitOf = (values: number[]) => () => fitHazard(panel, [2015], [{ name: 'x', values }]);
    expect(fitOf([Number.NaN, 1, 2, 3, 4])).toThrow(StatsError);
    expect(fitOf([1, 2])).toThrow(StatsError);
    expect(() => fitHazard(panel, [2015], [])).toThrow(StatsError);
    const found = fitted(panel, [2015], [{ name: 'x', values: [3, 1, 2, 2, 1] }]);
    expect(() => chanceOfFind(found, { values: [], tested: [1] })).toThrow(StatsError);
    expect(() => chanceOfFind(found, { values: [[Number.NaN]], tested: [1] })).toThrow(StatsError);
    expect(() => chanceOfFind(found, { values: [[1]], tested: [1], season: 7 })).toThrow(StatsError);
  });

  it('of rows infinitely far from a find', () => {
    const panel = panelOf([1, 1, 1, 0, 0, 0]);
    const values = [1, 3, 2, 3, 1, Number.POSITIVE_INFINITY];
    expect(fitted(panel, [2015], [{ name: 'x', values }])).toMatchObject({ leftOut: 1 });
  });
});

describe('the check of the hazard', () => {
  it('shares out all rows and finds, by rising risk, and finds nothing wrong with what was simulated so', () => {
    const { panel, values, seasons } = simulated(6);
    const found = fitted(panel, seasons, [{ name: 'value', values }]);
    const { groups, df, p } = checkHazard(found);
    expect(groups.reduce((sum, { rows }) => sum + rows, 0)).toBe(600);
    expect(groups.reduce((sum, { observed }) => sum + observed, 0)).toBe(found.newFinds);
    expect(groups.every(({ from, to }, k) => from <= to && (k === 0 || from >= groups[k - 1]!.to))).toBe(
      true,
    );
    expect(Math.min(...groups.map(({ expected }) => expected))).toBeGreaterThan(4);
    expect(df).toBe(groups.length - 2);
    expect(p).toBeGreaterThan(0.05);
  });

  it('sees expected chances that are wrong at both ends', () => {
    const { panel, values, seasons } = simulated(6);
    const found = fitted(panel, seasons, [{ name: 'value', values }]);
    const wrong: HazardFit = {
      ...found,
      fitted: found.fitted.map((chance) => Math.min(0.99, 3.5 * chance ** 1.7)),
    };
    expect(checkHazard(wrong).p).toBeLessThan(0.01);
  });

  it('asks nothing of few finds', () => {
    const found = fitted(panelOf([1, 1, 1, 0, 0, 0]), [2015], [{ name: 'x', values: [1, 3, 2, 3, 1, 1] }]);
    expect(checkHazard(found)).toMatchObject({ statistic: null, p: null, df: 0 });
  });
});
