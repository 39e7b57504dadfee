import { describe, expect, it } from 'vitest';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { atRisk } from '@/lib/stats/spread/at-risk';
import {
  anyFoundNeighbour,
  foundNeighbourShare,
  nearestFoundDistance,
} from '@/lib/stats/spread/hazard/exposures';
import { fitHazard } from '@/lib/stats/spread/hazard/fit-hazard';
import type { HazardFit } from '@/lib/stats/spread/hazard/types';
import { NOTHING, WAVE } from './spread-data';

// R 4.2.2 on the two simulations whose source stands in their files: glm(family = binomial('cloglog'), offset = log(tested),
// epsilon = 1e-14); clustered standard errors from its scores by place, rowsum(scores), vcov as bread, times G / (G − 1).
describe.each([
  {
    name: 'a wave',
    ...WAVE,
    levels: [-4.67342562583, -3.8007871003, -2.7870494054, -4.1015226696, -3.49541643873],
    clustered: 0.321939823045,
    share: [3.92465006479002, 0.487865039977, -115.7547654498],
    distance: [-3.6102020499661, 0.1173289676741, 0.64050012107, 0.05724476025],
  },
  {
    name: 'no spread',
    ...NOTHING,
    levels: [-2.830319576901, -2.405482145458, -1.660121347516, -3.571724946073, -2.092241797671],
    clustered: 0.447687434702,
    share: [-0.0346293492052139, 0.935053840137, -76.77014625826],
    distance: [0.7037175077782, -0.0862101522393, 0.4051483721, 0.0904785797],
  },
])('the hazard of a first find, in a simulation of $name', ({ counts, points, weights, expected, ...r }) => {
  const known = arrivals(counts);
  const panel = atRisk(counts, known);

  // R’s iterations end at about 1e-7 of a coefficient.
  it('with an effect of each season has R’s coefficients and standard errors', () => {
    const found = fitHazard(panel, counts.seasons, [anyFoundNeighbour(panel, known, weights)]) as HazardFit;
    const [near] = found.estimates;
    expect(Math.abs(near!.value - expected.cloglog_exposed_coef)).toBeLessThan(1e-6);
    expect(Math.abs(near!.modelStandardError - expected.cloglog_exposed_se)).toBeLessThan(1e-6);
    expect(near!.standardError).toBeCloseTo(r.clustered, 6);
    for (const [k, level] of r.levels.entries()) expect(found.theta[k + 1]).toBeCloseTo(level, 6);
  });

  it('with a line over the seasons has R’s coefficients', () => {
    const share = foundNeighbourShare(panel, known, weights);
    const found = fitHazard(panel, counts.seasons, [share], { seasons: 'linear' }) as HazardFit;
    expect(found.estimates[0]!.value).toBeCloseTo(r.share[0]!, 6);
    expect(found.estimates[0]!.modelStandardError).toBeCloseTo(r.share[1]!, 6);
    expect(found.logLikelihood).toBeCloseTo(r.share[2]!, 6);
    const away = nearestFoundDistance(panel, known, points);
    const byDistance = fitHazard(panel, counts.seasons, [away], { seasons: 'linear' }) as HazardFit;
    expect(byDistance.estimates.map(({ value }) => value)).toEqual([
      expect.closeTo(r.distance[0]!, 6),
      expect.closeTo(r.distance[1]!, 6),
    ]);
    expect(byDistance.estimates.map(({ modelStandardError }) => modelStandardError)).toEqual([
      expect.closeTo(r.distance[2]!, 6),
      expect.closeTo(r.distance[3]!, 6),
    ]);
  });
});
