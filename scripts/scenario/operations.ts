import type { Region } from '@/lib/geography/types';
import type { Effort } from './effort';
import { PARAMETERS } from './parameters';
import type { Random } from './random';
import { type WeightedDraw, weightedDraw } from './weighted';

/** The farms of one county: opaque ids, who posts their seed, and a draw that favours the keen. */
export interface CountyOperations {
  ids: string[];
  senders: string[];
  draw: WeightedDraw;
}

/**
 * Peoples each county with operations in proportion to what it is expected to send. Ids are a random order of
 * numbers, so an id says nothing of the place. Advisers send for several operations of a county or of two.
 *
 * @param expected populations that each county is expected to send in all seasons
 * @param oneSender the county whose first operation sends a quarter of its seed
 */
export function peopleCounties({
  region,
  effort,
  expected,
  oneSender,
  random,
}: {
  region: Region;
  effort: Effort;
  expected: ArrayLike<number>;
  oneSender: number;
  random: Random;
}): CountyOperations[] {
  const single = new Set([...effort.onePopulation, ...effort.oneOperation]);
  const sizes = region.counties.map((_, i) =>
    single.has(i) ? 1 : Math.max(2, Math.round(PARAMETERS.operationsPerPopulation * expected[i]!)),
  );
  const total = sizes.reduce((sum, size) => sum + size, 0);
  const digits = String(total).length;
  const numbers = random.shuffle(Array.from({ length: total }, (_, i) => i + 1));
  const advisers = adviserOf(region, random);
  let next = 0;
  return sizes.map((size, county) => {
    const ids = Array.from({ length: size }, () => `OP-${String(numbers[next++]!).padStart(digits, '0')}`);
    const senders = ids.map((id) => (random.chance(PARAMETERS.sentByAdviser) ? advisers[county]! : id));
    const keenness = ids.map(() => Math.exp(0.6 * random.normal()));
    if (county === oneSender) keenness[0] = shareAgainst(keenness.slice(1), PARAMETERS.oneSenderShare);
    return { ids, senders, draw: weightedDraw(keenness) };
  });
}

function shareAgainst(others: readonly number[], share: number): number {
  return (others.reduce((sum, weight) => sum + weight, 0) * share) / (1 - share);
}

/** One adviser for each county; half of the counties share theirs with a neighbour. */
function adviserOf(region: Region, random: Random): string[] {
  const advisers: string[] = [];
  region.counties.forEach((_, county) => {
    const before = region.neighbours[county]!.find((other) => other < county);
    const shared = before !== undefined && random.chance(0.5);
    advisers.push(shared ? advisers[before]! : `AD-${String(advisers.length + 1).padStart(4, '0')}`);
  });
  return advisers;
}
