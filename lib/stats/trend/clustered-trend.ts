import { checkLengths } from '../errors';
import { twoSidedP } from '../two-sided-p';
import { cochranArmitage, describeTrend, type TrendCounts } from './cochran-armitage';

export interface ClusteredTrend {
  /** As in `cochranArmitage`. */
  excess: number;
  /** From the scatter of the clusters' own excesses. */
  variance: number;
  z: number | null;
  p: number | null;
  /** Clusters with tests. */
  clusters: number;
  /** Variance against that of independent samples: about 1 where clusters do not matter. */
  designEffect: number | null;
  reason: 'nothing varies' | 'too few clusters' | null;
}

/**
 * The test of `cochranArmitage` with an allowance for samples that belong together, as those of one operation, within
 * a season and over seasons: the generalised score test, its variance taken between clusters.
 *
 * @param counts one entry for each cluster and season
 * @param cluster for each entry, to whom it belongs; any integers
 * @policy Below 10 clusters the variance is too uncertain for a normal reference: no answer, `too few clusters`. Where no
 *   cluster has an excess, `nothing varies`. Figures of its level stand in the tests.
 * @throws StatsError as `cochranArmitage`
 * @source Boos 1992, On generalized score tests, American Statistician 46:327–333 (from memory), with the factor
 *   m / (m − 1) for m clusters. Adjusted counts (Rao & Scott 1992, Biometrics 48:577–585, from memory) suppose that the
 *   clusters of different seasons are different ones, and growers send again; so they were not used.
 * @cost O(entries)
 */
export function clusteredTrend(counts: TrendCounts, cluster: ArrayLike<number>): ClusteredTrend {
  checkLengths(counts.scores, cluster, 'Scores and clusters');
  const { size, cases, meanScore } = describeTrend(counts);
  const independent = cochranArmitage(counts);
  const own = new Map<number, number>();
  for (let i = 0; i < cluster.length; i += 1) {
    if (counts.tested[i] === 0) continue;
    const beyond = counts.resistant[i]! - (counts.tested[i]! * cases) / size;
    const excess = (counts.scores[i]! - meanScore) * beyond;
    own.set(cluster[i]!, (own.get(cluster[i]!) ?? 0) + excess);
  }
  const clusters = own.size;
  const none = { excess: independent.excess, variance: 0, z: null, p: null, clusters, designEffect: null };
  if (independent.reason) return { ...none, reason: 'nothing varies' };
  if (clusters < FEWEST_CLUSTERS) return { ...none, reason: 'too few clusters' };
  let squares = 0;
  for (const excess of own.values()) squares += excess * excess;
  const variance = (squares * clusters) / (clusters - 1);
  if (!(variance > 1e-12 * independent.variance)) return { ...none, reason: 'nothing varies' };
  const z = independent.excess / Math.sqrt(variance);
  const designEffect = variance / independent.variance;
  return { excess: independent.excess, variance, z, p: twoSidedP(z), clusters, designEffect, reason: null };
}

const FEWEST_CLUSTERS = 10;
