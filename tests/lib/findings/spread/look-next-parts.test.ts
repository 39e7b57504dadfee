import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { averageChances } from '@/lib/findings/spread/look-next/average-chances';
import { closenessMeasures, FOUND_BEFORE } from '@/lib/findings/spread/look-next/closeness';
import { cropExposure } from '@/lib/findings/spread/look-next/crop-exposure';
import { fitCloseness } from '@/lib/findings/spread/look-next/fit-closeness';
import { lackOfTesting } from '@/lib/findings/spread/look-next/lack-of-testing';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { chanceOfFind } from '@/lib/stats/spread/hazard/chance-of-find';
import { buildWeights } from '@/lib/stats/weights';
import { inventedCounts } from '../../stats/spread/invented-counts';
import { front } from './look-next-invented';

describe('closeness to finds', () => {
  // Invented: a chain of four places, 2 apart; place 0 is found in the first season, place 3 in the second.
  const chain = buildWeights([[1], [0, 2], [1, 3], [2]], 'binary');
  const line = { x: [0, 2, 4, 6], y: [0, 0, 0, 0], metric: 'plane' as const };
  const found = { firstFound: Int32Array.of(0, -1, -1, 1) };

  it('is the share and the number of neighbours found in earlier seasons, up to the season to come', () => {
    const [share, number] = closenessMeasures(found, 2, chain, line);
    expect([...share!.values]).toEqual([0, 0, 0, 0, 0, 0.5, 0, 0, 0, 0.5, 0.5, 0]);
    expect(number!.values[0]).toBe(-3);
    expect(number!.values[4 + 1]).toBeCloseTo(Math.log(Math.exp(-3) + 1), 14);
  });

  it('is the logarithm of e⁻³ and exp(−distance / reach) of each find, reaches half, one and two steps', () => {
    const measures = closenessMeasures(found, 2, chain, line);
    expect(measures.map(({ name }) => name)).toEqual([
      'share of neighbours found',
      'number of neighbours found',
      'finds around, within a reach of 1.0',
      'finds around, within a reach of 2.0',
      'finds around, within a reach of 4.0',
    ]);
    const [, , , oneStep] = measures;
    expect([...oneStep!.values.slice(0, 4)]).toEqual([-3, -3, -3, -3]);
    expect(oneStep!.values[4 + 1]).toBeCloseTo(Math.log(Math.exp(-3) + Math.exp(-1)), 14);
    expect(oneStep!.values[8 + 2]).toBeCloseTo(Math.log(Math.exp(-3) + Math.exp(-2) + Math.exp(-1)), 14);
    // Its own find does not count.
    expect(oneStep!.values[8 + 3]).toBeCloseTo(Math.log(Math.exp(-3) + Math.exp(-3)), 14);
  });

  it('counts a find from before the seasons in all of them', () => {
    const before = { firstFound: Int32Array.of(FOUND_BEFORE, -1, -1, -1) };
    const [share, , , oneStep] = closenessMeasures(before, 1, chain, line);
    expect([...share!.values]).toEqual([0, 0.5, 0, 0, 0, 0.5, 0, 0]);
    expect(oneStep!.values[1]).toBeCloseTo(Math.log(Math.exp(-3) + Math.exp(-1)), 14);
    expect(oneStep!.values[4 + 1]).toBe(oneStep!.values[1]);
  });

  it('is kilometres on the sphere', () => {
    // A degree of the equator is 111.2 km at a radius of 6,371 km.
    const [, , , oneStep] = closenessMeasures(found, 2, chain, {
      ...line,
      x: [0, 1, 2, 3],
      metric: 'great circle',
    });
    expect(oneStep!.name).toBe('finds around, within a reach of 111 km');
    expect(oneStep!.values[4 + 1]).toBeCloseTo(Math.log(Math.exp(-3) + Math.exp(-1)), 12);
  });

  it('never falls as seasons go by, and is what a sum over all finds gives', () => {
    fc.assert(
      fc.property(inventedCounts, ({ rows, seasons, lists, x, y }) => {
        const n = lists.length;
        const known = arrivals({
          ...{ seasons, places: n },
          tested: Int32Array.from(rows.flat(), ([, tested]) => tested),
          resistant: Int32Array.from(rows.flat(), ([resistant]) => resistant),
        });
        const weights = buildWeights(lists, 'binary');
        const measures = closenessMeasures(known, seasons.length, weights, { x, y, metric: 'plane' });
        const distance = (i: number, j: number) => Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!);
        const links = lists.flatMap((list, i) => list.map((j) => distance(i, j))).sort((a, b) => a - b);
        const usual = links[Math.floor(links.length / 2)]!;
        expect(measures).toHaveLength(usual > 0 ? 5 : 2);
        for (let t = 0; t <= seasons.length; t += 1) {
          const before = [...known.firstFound.keys()].filter(
            (j) => known.firstFound[j]! !== -1 && known.firstFound[j]! < t,
          );
          for (let i = 0; i < n; i += 1) {
            const around = lists[i]!.filter((j) => before.includes(j)).length / lists[i]!.length;
            expect(measures[0]!.values[t * n + i]).toBeCloseTo(around, 12);
            measures.slice(2).forEach(({ values }, k) => {
              const sum = before
                .filter((j) => j !== i)
                .reduce(
                  (all, j) => all + Math.exp(-distance(i, j) / ([0.5, 1, 2][k]! * usual)),
                  Math.exp(-3),
                );
              expect(values[t * n + i]).toBeCloseTo(Math.log(sum), 9);
              if (t > 0) expect(values[t * n + i]!).toBeGreaterThanOrEqual(values[(t - 1) * n + i]!);
            });
          }
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('the fit of closeness', () => {
  const { counts, weights, points } = front();
  const known = arrivals(counts);
  const measures = closenessMeasures(known, counts.seasons.length, weights, points);

  it('weighs measures by their likelihood, and its p pays for having looked at all', () => {
    const all = fitCloseness(counts, known, measures);
    if (!('fits' in all)) throw new Error('expected fits');
    expect(all.fits.length).toBeGreaterThan(1);
    const first = all.fits[0]!;
    for (const { weight, fit } of all.fits) {
      expect(weight / first.weight).toBeCloseTo(Math.exp(fit.logLikelihood - first.fit.logLikelihood), 12);
      expect(weight).toBeLessThanOrEqual(first.weight);
    }
    expect(all.fits.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    const alone = fitCloseness(counts, known, [first.measure]);
    if (!('fits' in alone)) throw new Error('expected a fit');
    expect(alone.fits[0]!.weight).toBe(1);
    expect(all.p).toBeCloseTo(Math.min(1, 5 * alone.p), 12);
  });

  it('leaves out a measure under which new finds come less near', () => {
    const turned = measures.map(({ name, values }) => ({ name, values: values.map((value) => -value) }));
    expect(fitCloseness(counts, known, turned)).toMatchObject({ reason: 'not nearer to finds' });
    expect(fitCloseness(counts, known, [...turned, measures[2]!])).toMatchObject({
      fits: [{ measure: measures[2]!, weight: 1 }],
    });
  });
});

function expectNear(found: ArrayLike<number>, expected: ArrayLike<number>): void {
  expect(found).toHaveLength(expected.length);
  for (let at = 0; at < expected.length; at += 1) expect(found[at]!).toBeCloseTo(expected[at]!, 12);
}

describe('averaged chances', () => {
  const { counts, weights, points } = front();
  const known = arrivals(counts);
  const measures = closenessMeasures(known, counts.seasons.length, weights, points);
  const fitsOf = (some: typeof measures) => {
    const found = fitCloseness(counts, known, some);
    if (!('fits' in found)) throw new Error('expected fits');
    return found.fits;
  };
  const listed = [17, 30, 44, 63];

  it('of one measure are those of the hazard, with as many tested as lack of testing leaves', () => {
    const [one] = fitsOf([measures[3]!]) as [ReturnType<typeof fitsOf>[0]];
    const found = averageChances([one], counts, listed, 4);
    const lack = lackOfTesting(counts, one.fit, one.measure);
    const values = [listed.map((i) => one.measure.values[4 * 64 + i]!)];
    const hazard = chanceOfFind(one.fit, { values, tested: listed.map((i) => 4 * lack[i]!) });
    for (const key of ['chance', 'low', 'high'] as const) {
      expectNear(found[key], hazard[key]);
    }
    expectNear(
      found.lackOfTesting,
      listed.map((i) => lack[i]!),
    );
    const usual = chanceOfFind(one.fit, { values, tested: listed.map(() => 4) }).chance;
    expectNear(found.chanceByNearness, usual);
  });

  it('lie between those of the measures, in an interval no narrower than their mean', () => {
    const fits = fitsOf(measures);
    // So few populations that no chance comes near 1, where logarithms of hazards would be lost.
    const all = averageChances(fits, counts, listed, 1e-6);
    const each = fits.map((fit) => averageChances([{ ...fit, weight: 1 }], counts, listed, 1e-6));
    const width = ({ low, high }: typeof all, at: number) =>
      Math.log(-Math.log1p(-high[at]!)) - Math.log(-Math.log1p(-low[at]!));
    listed.forEach((_, at) => {
      expect(all.chance[at]!).toBeGreaterThanOrEqual(
        Math.min(...each.map(({ chance }) => chance[at]!)) - 1e-12,
      );
      expect(all.chance[at]!).toBeLessThanOrEqual(Math.max(...each.map(({ chance }) => chance[at]!)) + 1e-12);
      const mean = fits.reduce((sum, { weight }, k) => sum + weight * width(each[k]!, at), 0);
      expect(width(all, at)).toBeGreaterThanOrEqual(mean - 1e-9);
    });
  });
});

describe('lack of testing', () => {
  const lack = (
    tested: readonly number[],
    theta: readonly [number, number],
    values: readonly number[],
    places = 1,
  ) =>
    lackOfTesting(
      {
        seasons: Array.from({ length: tested.length / places }, (_, t) => t),
        places,
        tested: Int32Array.from(tested),
      },
      { theta: Float64Array.from(theta) },
      { name: 'invented', values: Float64Array.from([...values, ...Array(places).fill(0)]) },
    );

  it('is 1 where never tested and ½ where one find was due', () => {
    expect([...lack([0, 0], [1, 0], [3, 3])]).toEqual([1]);
    expect([...lack([1, 0], [1, 0], [0, 3])]).toEqual([0.5]);
    expect(lack([2, 4], [Math.log(2), Math.log(0.1)], [0, 1])[0]).toBeCloseTo(
      1 / (1 + 2 * 0.1 + 4 * 0.2),
      14,
    );
  });

  it('is the mean risk that is left, if risks were exponential and none was found', () => {
    // ∫ z e^(−z) e^(−zE) dz / ∫ e^(−z) e^(−zE) dz, by the midpoint rule.
    for (const due of [0.1, 1, 5]) {
      let [above, below] = [0, 0];
      for (let z = 0.0005; z < 60; z += 0.001) {
        const weight = Math.exp(-z - z * due);
        above += z * weight;
        below += weight;
      }
      expect(lack([1], [0, Math.log(due)], [0])[0]).toBeCloseTo(above / below, 6);
    }
  });

  it('falls with each clean test, the more the nearer finds were, and stays a number', () => {
    const small = fc.integer({ min: 0, max: 50 });
    fc.assert(
      fc.property(small, small, fc.double({ min: -5, max: 5, noNaN: true }), (a, b, level) => {
        const [first, more, near] = [
          [a, b],
          [a, b + 1],
          [a, b + 1],
        ].map((tested, k) => lack(tested, [1, level], [0, k === 2 ? 1 : 0])[0]!);
        expect(more!).toBeLessThan(first!);
        expect(near!).toBeLessThan(more!);
        expect(near!).toBeGreaterThan(0);
      }),
    );
    expect(lack([1000], [20, 900], [100])[0]).toBeGreaterThan(0);
  });
});

describe('crop area as exposure', () => {
  // Invented areas.
  const areas = [
    { crop: 'corn', year: 2022, county: '31109', hectares: 1 },
    { crop: 'corn', year: 2024, county: '31109', hectares: 10 },
    { crop: 'corn', year: 2022, county: '31111', hectares: 5 },
    { crop: 'soybean', year: 2023, county: '31109', hectares: 100 },
    { crop: 'wheat', year: 2024, county: '31111', hectares: 1000 },
    { crop: 'soybean', year: 2023, county: '46102', hectares: 0 },
  ];

  it('adds up the newest year of each crop, and knows zero from unknown', () => {
    expect(cropExposure(areas, ['corn', 'soybean', 'oats'], ['31109', '31111', '46102'])).toEqual({
      crop: 'corn and soybean',
      hectares: [110, null, 0],
    });
    expect(cropExposure(areas, ['wheat'], ['31109', '31111'])).toEqual({
      crop: 'wheat',
      hectares: [null, 1000],
    });
  });

  it('is none where no table of the crops is loaded', () => {
    expect(cropExposure(areas, ['oats'], ['31109'])).toBeNull();
    expect(cropExposure([], ['corn'], ['31109'])).toBeNull();
  });
});
