import { multipleResistance } from '@/lib/stats/multiple-resistance';
import { resistancePairs } from '@/lib/stats/resistance-pairs';
import { cochranArmitage } from '@/lib/stats/trend/cochran-armitage';
import { multipleSentences } from './multiple-sentences';
import type { GroupPair, MultipleAnalysis, MultipleTask } from './types';

/**
 * Which groups come together in the same population beyond chance, inside district and season, and how many populations
 * are resistant to two, three and more groups, season by season. Private.
 */
export function analyseMultiple(task: MultipleTask): MultipleAnalysis {
  const { species, design, groups, seasons, populations } = task;
  const masks = {
    tested: Int32Array.from(populations.tested),
    resistant: Int32Array.from(populations.resistant),
    season: populations.season.map((row) => seasons[row]!),
  };
  const strata = populations.season.map((row, i) => populations.place[i]! * seasons.length + row);
  const pairs = resistancePairs(masks, { strata, midP: true }).map(
    ({
      first,
      second,
      tested,
      both,
      firstOnly,
      secondOnly,
      neither,
      oddsRatio,
      low,
      high,
      adjusted,
    }): GroupPair => ({
      ...{ first: groups[first]!, second: groups[second]!, tested, both, firstOnly, secondOnly, neither },
      ...{ oddsRatio, low, high, p: adjusted },
    }),
  );
  const bySeason = multipleResistance(masks);
  const most = bySeason.reduce((largest, row) => Math.max(largest, row.groups), 0);
  const trends = Array.from({ length: Math.max(0, most - 1) }, (_, k) => {
    const rows = bySeason.filter((row) => row.groups === k + 2);
    const { p, excess } = cochranArmitage({
      scores: rows.map(({ season }) => season),
      tested: rows.map(({ tested }) => tested),
      resistant: rows.map(({ atLeast }) => atLeast),
    });
    return { groups: k + 2, p, rises: excess > 0 };
  });
  const found: Omit<MultipleAnalysis, 'sentences'> = {
    ...{ kind: 'multiple', species, design, pairs, bySeason, trends },
    seasons: [seasons[0]!, seasons.at(-1)!],
  };
  return { ...found, sentences: multipleSentences(found, task.speciesName) };
}
