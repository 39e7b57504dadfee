import { describe, expect, it } from 'vitest';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { atRisk } from '@/lib/stats/spread/at-risk';
import { nearness } from '@/lib/stats/spread/nearness';
import { ARRIVAL } from '@/lib/stats/spread/types';
import { NOTHING, WAVE } from './spread-data';

describe.each([
  { name: 'a wave', ...WAVE },
  { name: 'no spread', ...NOTHING },
])('in a simulation of $name', ({ counts, weights, expected }) => {
  const known = arrivals(counts);

  it('the first find, the last clean season before it and the first test are those of the reference', () => {
    expect([...known.firstFound]).toEqual(expected.firstFound);
    expect([...known.lastClean]).toEqual(expected.lastClean);
    expect([...known.firstTested]).toEqual(expected.firstTested);
    const ofKind = (kind: number) => known.kind.filter((each) => each === kind).length;
    expect(ofKind(ARRIVAL.newAfterClean)).toBe(expected.n_new_detections_strict);
    expect(ofKind(ARRIVAL.foundAtFirstTest)).toBe(expected.n_first_positive_without_prior_negative);
  });

  it('the places at risk are as many', () => {
    expect(atRisk(counts, known).place).toHaveLength(expected.panel_rows);
  });

  it('by season, the tables, the exact p and the conditional odds ratio are R’s', () => {
    const found = nearness(counts, weights, { strata: 'season' });
    const tables = found.tables.map(({ season, nearNew, near, farNew, far }) => [
      season,
      nearNew,
      near,
      farNew,
      far,
    ]);
    expect(tables).toEqual(expected.tables);
    expect(Math.abs(found.p - expected.exact_p_greater)).toBeLessThan(1e-9);
    expect(found.p / expected.exact_p_greater).toBeCloseTo(1, 6);
    // R's root finder stops at about 1e-4 of the odds ratio.
    expect(found.oddsRatio! / expected.mh_conditional_or).toBeCloseTo(1, 4);
    expect(found.newFinds).toBe(expected.n_new_detections_strict);
    // The reference counts strata without a choice too; they add as much to both sums.
    const settled = expected.observed_exposed_new - found.observed;
    expect(found.expected + settled).toBeCloseTo(expected.expected_exposed_new, 9);
  });
});
