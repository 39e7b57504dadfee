import { Random } from '@/lib/stats/random';
import {
  compareQuality,
  EXACT_LIMIT,
  isConnected,
  type Partition,
  type PartitionProblem,
  partitionExactly,
} from './partition';

export interface SearchOptions {
  /** Beginnings that are tried. */
  starts?: number;
  /** The most counties that are partitioned exactly on the way, up to EXACT_LIMIT. */
  exact?: number;
  seed?: number;
}

/**
 * A good partition of many counties: areas are grown from seeded random beginnings until they pass, what is left joins
 * its neighbours, and then two or three adjoining areas at a time are partitioned anew, exactly, until none gets better.
 * The same problem and seed give the same partition; it is not certain to have the most areas possible.
 *
 * @returns null where not even all counties together pass or connect
 */
export function partitionBySearch(
  problem: PartitionProblem,
  { starts = 12, exact = EXACT_LIMIT, seed = 1 }: SearchOptions = {},
): Partition | null {
  const all = problem.links.map((_, county) => county);
  if (all.length === 0 || !isConnected(problem, all) || !problem.passes(all)) return null;
  let best: Partition = [all];
  const random = new Random(seed);
  for (let start = 0; start < starts; start++) {
    const grown = grow(problem, shuffled(all, random));
    if (!grown) continue;
    const found = improve(problem, grown, exact);
    if (compareQuality(problem, found, best) > 0) best = found;
  }
  return inOrder(best);
}

/** Areas grown one after the other in the order of their beginnings; null where what is left over cannot be joined. */
function grow(problem: PartitionProblem, order: readonly number[]): Partition | null {
  const areaOf = new Map<number, number[]>();
  const left = new Set(order);
  const areas: Partition = [];
  for (const beginning of order) {
    if (!left.has(beginning)) continue;
    const area = [beginning];
    left.delete(beginning);
    while (!problem.passes(area)) {
      const next = nearest(problem, area, (county) => left.has(county));
      if (next === null) break;
      area.push(next);
      left.delete(next);
    }
    if (!problem.passes(area)) {
      for (const county of area) left.add(county);
      left.delete(beginning);
      area.length = 1;
    }
    areas.push(area);
    for (const county of area) areaOf.set(county, area);
  }
  return joinFailing(problem, areas);
}

/** Joins each area that does not pass to the adjoining one that is nearest. */
function joinFailing(problem: PartitionProblem, areas: Partition): Partition | null {
  const list = [...areas];
  for (;;) {
    const at = list.findIndex((area) => !problem.passes(area));
    if (at < 0) return list;
    const [area] = list.splice(at, 1);
    const holder = new Map(list.flatMap((other) => other.map((county) => [county, other] as const)));
    const next = nearest(problem, area!, (county) => holder.has(county));
    if (next === null) return null;
    holder.get(next)!.push(...area!);
  }
}

function nearest(
  { links, distances }: PartitionProblem,
  area: readonly number[],
  isFree: (county: number) => boolean,
): number | null {
  let [found, least] = [null as number | null, Infinity];
  for (const candidate of new Set(area.flatMap((county) => links[county]!.filter(isFree)))) {
    const distance = area.reduce((sum, county) => sum + distances[county]![candidate]!, 0);
    if (distance < least) [found, least] = [candidate, distance];
  }
  return found;
}

/** Partitions neighbouring areas anew while that makes more of them or more compact ones. */
function improve(problem: PartitionProblem, begun: Partition, exact: number): Partition {
  let areas = begun;
  for (let changed = true; changed; ) {
    changed = false;
    for (const some of neighbouring(problem, areas)) {
      const counties = some.flat().sort((a, b) => a - b);
      if (counties.length > exact) continue;
      const anew = partitionExactly(restricted(problem, counties))!.map((area) =>
        area.map((place) => counties[place]!),
      );
      if (compareQuality(problem, anew, some) <= 0) continue;
      areas = [...areas.filter((area) => !some.includes(area)), ...anew];
      changed = true;
      break;
    }
  }
  return areas;
}

/** Pairs and triples of areas that adjoin each other, small ones first. */
function neighbouring({ links }: PartitionProblem, areas: Partition): Partition[] {
  const adjoin = (a: readonly number[], b: readonly number[]) =>
    a.some((county) => links[county]!.some((other) => b.includes(other)));
  const pairs = areas.flatMap((a, i) => areas.slice(i + 1).flatMap((b) => (adjoin(a, b) ? [[a, b]] : [])));
  const triples = pairs.flatMap(([a, b]) =>
    areas.flatMap((c) =>
      c !== a && c !== b && areas.indexOf(c) > areas.indexOf(a!) && (adjoin(a!, c) || adjoin(b!, c))
        ? [[a!, b!, c]]
        : [],
    ),
  );
  return [...areas.map((area) => [area]), ...(pairs as Partition[]), ...triples];
}

function restricted(problem: PartitionProblem, counties: readonly number[]): PartitionProblem {
  const place = new Map(counties.map((county, i) => [county, i]));
  return {
    links: counties.map((county) => problem.links[county]!.flatMap((other) => place.get(other) ?? [])),
    distances: counties.map((a) => Float64Array.from(counties, (b) => problem.distances[a]![b]!)),
    passes: (places) => problem.passes(places.map((i) => counties[i]!)),
  };
}

function shuffled(counties: readonly number[], random: Random): number[] {
  const order = [...counties];
  for (let i = order.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

function inOrder(partition: Partition): Partition {
  return partition.map((area) => [...area].sort((a, b) => a - b)).sort((a, b) => a[0]! - b[0]!);
}
