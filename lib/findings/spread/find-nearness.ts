import { arrivals } from '@/lib/stats/spread/arrivals';
import { atRisk } from '@/lib/stats/spread/at-risk';
import { checkHazard } from '@/lib/stats/spread/hazard/check-hazard';
import { anyFoundNeighbour } from '@/lib/stats/spread/hazard/exposures';
import { fitHazard } from '@/lib/stats/spread/hazard/fit-hazard';
import { nearness } from '@/lib/stats/spread/nearness';
import { nearnessDistance } from '@/lib/stats/spread/nearness-distance';
import type { SeasonCounts, SpreadPoints } from '@/lib/stats/spread/types';
import type { Weights } from '@/lib/stats/weights';
import { number, placeWord, probability, ratio } from '../wording';
import type { Nearness } from './types';

export interface NearnessInput {
  counts: SeasonCounts;
  weights: Weights;
  points: SpreadPoints;
  seed: number;
  /** As `kochia, group 27, 2013–2024`. */
  about: string;
}

/**
 * Do counties found new after a clean record lie beside counties found before, more often than those at risk of the same
 * season that were tested as much? Exact, with the distance version and the hazard ratio beside it.
 *
 * @throws StatsError for impossible counts
 */
export function findNearness({ counts, weights, points, seed, about }: NearnessInput): Nearness {
  const near = nearness(counts, weights);
  const away = nearnessDistance(counts, points, { permutations: PERMUTATIONS, seed });
  const found: Omit<Nearness, 'sentence'> = {
    kind: 'nearness',
    verdict: near.informative === 0 ? 'too little found' : near.p <= LEVEL ? 'near' : 'no sign',
    newFinds: near.newFinds,
    observed: near.observed,
    expected: near.expected,
    p: near.p,
    midP: near.midP,
    oddsRatio: near.oddsRatio,
    low: near.low,
    high: near.high,
    distance: { observed: away.observed, expected: away.expected, p: away.p },
    hazard: hazardOf(counts, weights),
  };
  return { ...found, sentence: sentenceOf(found, about) };
}

const PERMUTATIONS = 999;
const LEVEL = 0.05;

function hazardOf(counts: SeasonCounts, weights: Weights): Nearness['hazard'] {
  const known = arrivals(counts);
  const rows = atRisk(counts, known);
  const fit = fitHazard(rows, counts.seasons, [anyFoundNeighbour(rows, known, weights)]);
  if (fit.kind === 'no fit') return { reason: fit.message };
  const [{ hazardRatio, low, high, p }] = fit.estimates as [(typeof fit.estimates)[0]];
  return { ratio: hazardRatio, low, high, p, fitP: checkHazard(fit).p };
}

function sentenceOf(found: Omit<Nearness, 'sentence'>, about: string): string {
  const { verdict, newFinds, observed, expected, p, oddsRatio, low, high } = found;
  if (verdict === 'too little found')
    return (
      `${about}: not enough to say whether new finds lie near earlier ones: ${foundNew(newFinds)} after a clean record` +
      (newFinds === 0 ? '.' : ', and none of them can be compared with others of its season.')
    );
  const odds =
    oddsRatio === null
      ? ''
      : `; odds ratio ${ratio(oddsRatio)}, 95 % interval ${limit(low, 0)} to ${limit(high, null)}`;
  const seen =
    `of ${foundNew(newFinds)} after a clean record ${number(observed)} had an earlier find next door, where ` +
    `${expected.toFixed(1)} were to be expected of those tested as much in the same season${odds} (${probability(p)})`;
  if (verdict === 'no sign')
    return `${about}: no sign that new finds lie near earlier ones: ${seen}.${hazard(found)}`;
  return `${about}: new finds lie near earlier ones: ${seen}.${hazard(found)}`;
}

function foundNew(count: number): string {
  return `${count === 0 ? 'no' : number(count)} ${count <= 1 ? 'county' : placeWord('county')} found new`;
}

function hazard({ hazard: told, verdict }: Omit<Nearness, 'sentence'>): string {
  if (verdict !== 'near' || 'reason' in told) return '';
  const fits =
    told.fitP !== null && told.fitP <= LEVEL
      ? ` That does not fit how finds came (${probability(told.fitP)}): take it as rough.`
      : '';
  return ` Tests being equal, a clean county with an earlier find next door was found new ${ratio(told.ratio)} times as often as one without (95 % interval ${ratio(told.low)} to ${ratio(told.high)}).${fits}`;
}

function limit(value: number | null, open: number | null): string {
  if (value !== null) return ratio(value);
  return open === null ? 'no upper limit' : String(open);
}
