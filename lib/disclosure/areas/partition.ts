/** Counties of one district that may be joined; numbers are their places in the district. */
export interface PartitionProblem {
  /** For each county the ones that it may be joined with directly. */
  links: readonly (readonly number[])[];
  /** Squared distances between counties, km². */
  distances: readonly Float64Array[];
  /** Whether a set of counties may be shown as an area. */
  passes: (counties: readonly number[]) => boolean;
}

/** Connected areas that cover all counties, each ascending; their order is that of their first counties. */
export type Partition = number[][];

/** The most counties that are partitioned exactly: 3ⁿ / 2 steps. */
export const EXACT_LIMIT = 13;

/**
 * The partition into connected areas that all pass, with as many areas as possible and, among those, the least
 * inertia (sum over areas of squared distances between their counties ÷ their number): the max-p-regions problem (Duque,
 * Anselin & Rey 2012, J. Regional Science 52:397–419), solved by dynamic programming over sets of counties.
 *
 * @returns null where not even all counties together pass or connect
 * @throws RangeError above EXACT_LIMIT counties
 */
export function partitionExactly(problem: PartitionProblem): Partition | null {
  const size = problem.links.length;
  if (size > EXACT_LIMIT) throw new RangeError(`${size} counties are too many to be partitioned exactly.`);
  const sets = 1 << size;
  const inertia = areaInertia(problem, sets);
  // For each set: the most areas (−1: none), their inertia, and the area that holds its lowest county.
  const areas = new Int8Array(sets).fill(-1);
  const cost = new Float64Array(sets);
  const first = new Int32Array(sets);
  areas[0] = 0;
  for (let set = 1; set < sets; set++) {
    const lowest = set & -set;
    const others = set ^ lowest;
    for (let more = others; ; more = (more - 1) & others) {
      const area = more | lowest;
      const rest = set ^ area;
      if (inertia[area]! >= 0 && areas[rest]! >= 0) {
        const [count, total] = [areas[rest]! + 1, cost[rest]! + inertia[area]!];
        if (count > areas[set]! || (count === areas[set]! && total < cost[set]! - 1e-9)) {
          areas[set] = count;
          cost[set] = total;
          first[set] = area;
        }
      }
      if (more === 0) break;
    }
  }
  if (size === 0 || areas[sets - 1]! < 0) return null;
  const partition: Partition = [];
  for (let set = sets - 1; set !== 0; set ^= first[set]!) partition.push(membersOf(first[set]!));
  return partition;
}

/** Number of areas, then inertia: positive where `a` is the better partition. */
export function compareQuality(problem: PartitionProblem, a: Partition, b: Partition): number {
  const inertia = (partition: Partition) =>
    partition.reduce((sum, area) => sum + inertiaOf(problem, area), 0);
  return a.length - b.length || Math.sign(inertia(b) - inertia(a) - 1e-9 * Math.max(1, inertia(b)));
}

/** Whether counties hang together. */
export function isConnected({ links }: PartitionProblem, counties: readonly number[]): boolean {
  const wanted = new Set(counties);
  const open = counties.slice(0, 1);
  wanted.delete(counties[0]!);
  for (let county = open.pop(); county !== undefined; county = open.pop()) {
    for (const other of links[county]!) if (wanted.delete(other)) open.push(other);
  }
  return wanted.size === 0;
}

function inertiaOf({ distances }: PartitionProblem, area: readonly number[]): number {
  let sum = 0;
  for (const [at, a] of area.entries()) for (const b of area.slice(at + 1)) sum += distances[a]![b]!;
  return sum / area.length;
}

/** For each set of counties its inertia as an area, −1 where it is none. */
function areaInertia(problem: PartitionProblem, sets: number): Float64Array {
  const reach = problem.links.map((list) => list.reduce((set, county) => set | (1 << county), 0));
  const pairs = new Float64Array(sets);
  const inertia = new Float64Array(sets).fill(-1);
  for (let set = 1; set < sets; set++) {
    const members = membersOf(set);
    const rest = set & (set - 1);
    const row = problem.distances[members[0]!]!;
    let sum = pairs[rest]!;
    for (let i = 1; i < members.length; i++) sum += row[members[i]!]!;
    pairs[set] = sum;
    if (hangsTogether(set, reach) && problem.passes(members)) inertia[set] = sum / members.length;
  }
  return inertia;
}

function hangsTogether(set: number, reach: readonly number[]): boolean {
  let known = set & -set;
  for (let open = known; open !== 0; ) {
    const county = 31 - Math.clz32(open & -open);
    open &= open - 1;
    const fresh = reach[county]! & set & ~known;
    known |= fresh;
    open |= fresh;
  }
  return known === set;
}

function membersOf(set: number): number[] {
  const members: number[] = [];
  for (let rest = set; rest !== 0; rest &= rest - 1) members.push(31 - Math.clz32(rest & -rest));
  return members;
}
