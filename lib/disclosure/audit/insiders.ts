import type { Highs } from 'highs';
import { cellKeyText } from '../cell-order';
import { loadSolver } from '../solver';
import type { InsiderBreach, Policy, Results } from '../types';
import { Attacker, type Terms, valueAt } from './attacker';
import { type AuditedRelease, type Joined, joinReleases } from './join';
import { connectedColumns, propagate } from './linear-system';
import { isForbidden, publiclySaid } from './questions';
import { type ReaderSystem, readerSystem } from './reader-system';
import { asItStood } from './stood';

/** What each sender has in each cell of one release (`cellKeyText`), for the senders with anything in a withheld cell. */
export type Holdings = ReadonlyMap<string, ReadonlyMap<string, Results>>;

export interface InsiderReport {
  breaches: InsiderBreach[];
  /** Senders who were asked about, pair by pair. */
  senders: number;
  programs: number;
}

const EPS = 1e-5;
/** Points of each component that show many senders at once that they cannot know. */
const OPENING = 24;
/** Points that are kept with each number. */
const WITNESSES = 24;

/**
 * The insider pass (promise P4): reads all releases once more as each sender with a sample in a withheld cell, who
 * knows its own results. Reports every withheld cell of whose others, less the sender's own, the exact number of resistant, or
 * of not resistant, could be said by such a sender, where these others are too few to be shown (the primary rule asked of
 * them alone). What earlier releases told such a sender already is not this one's doing. What a published total says by itself, less the sender's own, is accepted: it is not learnt from a withheld
 * cell.
 *
 * @param releases oldest first, with their truth; the last is the one that is audited (number null)
 * @param holdings of each of them, in the same order, by pair (`species|group`)
 * @param only pairs to look at; all where it is left out
 * @cost most senders cost no program: a point that all readers hold possible is moved towards the truth until it
 *   holds what the sender has, and often still shows two values
 */
export async function auditInsiders(
  releases: readonly (AuditedRelease & { truth: NonNullable<AuditedRelease['truth']> })[],
  holdings: readonly ReadonlyMap<string, Holdings>[],
  policy: Policy,
  only?: ReadonlySet<string>,
): Promise<InsiderReport> {
  const highs = await loadSolver();
  const report: InsiderReport = { breaches: [], senders: 0, programs: 0 };
  for (const known of joinReleases(releases, only)) {
    const { species, group } = known.pair;
    const own = holdings.map((release) => release.get(`${species}|${group}`) ?? new Map());
    const found = examineSenders(highs, known, releases, own, policy);
    report.breaches.push(...found.breaches);
    report.senders += found.senders;
    report.programs += found.programs;
  }
  return report;
}

function examineSenders(
  highs: Highs,
  known: Joined,
  releases: readonly AuditedRelease[],
  holdings: readonly Holdings[],
  policy: Policy,
): InsiderReport {
  const report: InsiderReport = { breaches: [], senders: 0, programs: 0 };
  const system = readerSystem(known, true);
  if (!propagate(system)) return report;
  const said = publiclySaid(known);
  const isAccepted = acceptance(known);
  const senders = sendersOf(known, releases, holdings);
  const columnOf = new Map(system.suspects.map(({ cells, column }) => [cells[0]!, column]));
  const truth = truthPoint(known, system);
  report.senders = senders.length;
  const stood = known.cells.some((cell) => cell.stood) ? beforeThis(highs, known) : null;
  for (const columns of connectedColumns(system)) {
    const free = new Set(columns);
    const cells = [...columnOf].filter(([, column]) => [0, 1, 2].some((m) => free.has(column + m)));
    const rows = system.rows.filter((row) => row.columns.some((column) => free.has(column)));
    const attacker = new Attacker(highs, system, columns, rows);
    const targets = cells.flatMap(([cell, column]) =>
      said(cell) ? [] : targetsAt(cell, column, free, truth),
    );
    try {
      for (const point of openingPoints(attacker, columns)) witness(targets, point);
      for (const { name, own } of senders) {
        const floors = floorsOf(cells, own);
        if (floors.length === 0) continue;
        const share = remembered((point: Float64Array) => shareWithin(point, truth, floors));
        for (const target of targets) {
          const { cell, quantity, terms, centre, points } = target;
          const far = (point: Float64Array) => Math.abs(valueAt(terms, point) - centre);
          if (points.some((point) => share(point) * far(point) >= 1 - EPS)) continue;
          if (!areFew(known, cell, own.get(cell), policy) || isAccepted(cell, own)) continue;
          const isFixed = isExact(attacker, terms, floors, (point) => witness(targets, point));
          if (!isFixed || stood?.isExact(cell, quantity, own)) continue;
          report.breaches.push(breachOf(known, cell, quantity, holdings, name));
        }
      }
      report.programs += attacker.programs;
    } finally {
      attacker.dispose();
    }
  }
  report.programs += stood?.programs() ?? 0;
  stood?.dispose();
  return report;
}

/** Whether a sender could say the number already if the release withheld all that no earlier one shows. */
function beforeThis(highs: Highs, known: Joined) {
  const system = readerSystem(asItStood(known), true);
  const isSound = propagate(system);
  const columns = system.suspects.map(({ cells, column }) => [cells[0]!, column] as const);
  const all = connectedColumns(system).flat();
  const attacker = new Attacker(highs, system, all, system.rows);
  return {
    isExact(cell: number, quantity: InsiderBreach['quantity'], own: ReadonlyMap<number, Results>): boolean {
      const column = columns.find(([at]) => at === cell)?.[1];
      if (!isSound || column === undefined) return false;
      const floors = columns.flatMap(([at, first]) => {
        const mine = own.get(at);
        return mine ? [0, 1, 2].map((m) => [first + m, mine[m as 0 | 1 | 2]] as const) : [];
      });
      const terms: Terms = (quantity === 'resistant' ? [0] : [1, 2]).map((m) => [column + m, 1] as const);
      return isExact(attacker, terms, floors);
    },
    programs: () => attacker.programs,
    dispose: () => attacker.dispose(),
  };
}

/** One number of others that no sender may know, and points at which it is another than it truly is. */
interface Target {
  cell: number;
  quantity: InsiderBreach['quantity'];
  terms: Terms;
  centre: number;
  points: Float64Array[];
}

function targetsAt(cell: number, column: number, free: ReadonlySet<number>, truth: Float64Array): Target[] {
  return (['resistant', 'not resistant'] as const).flatMap((quantity): Target[] => {
    const terms: Terms = (quantity === 'resistant' ? [0] : [1, 2]).map((m) => [column + m, 1] as const);
    if (terms.every(([at]) => !free.has(at))) return [];
    return [{ cell, quantity, terms, centre: valueAt(terms, truth), points: [] }];
  });
}

/** Keeps a point with each target that it moves by one at least. */
function witness(targets: readonly Target[], point: Float64Array): void {
  for (const { terms, centre, points } of targets) {
    if (points.length < WITNESSES && Math.abs(valueAt(terms, point) - centre) >= 1 - EPS) points.push(point);
  }
}

function floorsOf(cells: readonly (readonly [number, number])[], own: ReadonlyMap<number, Results>) {
  return cells.flatMap(([cell, column]) => {
    const mine = own.get(cell);
    if (!mine) return [];
    return [0, 1, 2].map((m) => [column + m, mine[m as 0 | 1 | 2]] as const).filter(([, value]) => value > 0);
  });
}

function remembered(work: (point: Float64Array) => number): (point: Float64Array) => number {
  const known = new Map<Float64Array, number>();
  return (point) => {
    const value = known.get(point) ?? work(point);
    known.set(point, value);
    return value;
  };
}

interface Sender {
  name: string;
  /** What it has in each cell, in numbers of the newest release: at least so much is in it. */
  own: Map<number, Results>;
}

function sendersOf(known: Joined, releases: readonly AuditedRelease[], holdings: readonly Holdings[]) {
  const order = new Map(releases.map(({ number }, r) => [number, r]));
  const sightsOf: Map<string, { cell: number; more: Results }[]>[] = releases.map(() => new Map());
  for (const [cell, { sights }] of known.cells.entries()) {
    for (const { release, shown, more } of sights) {
      const [at, key] = [sightsOf[order.get(release)!]!, cellKeyText(shown)];
      const list = at.get(key);
      if (list) list.push({ cell, more });
      else at.set(key, [{ cell, more }]);
    }
  }
  const names = new Set(holdings.flatMap((release) => [...release.keys()]));
  return [...names].sort().map((name): Sender => {
    const own = new Map<number, [number, number, number]>();
    for (const [r, release] of holdings.entries()) {
      for (const [key, mine] of release.get(name) ?? []) {
        for (const { cell, more } of sightsOf[r]!.get(key) ?? []) {
          const most = own.get(cell) ?? [0, 0, 0];
          for (const m of [0, 1, 2] as const) most[m] = Math.max(most[m], mine[m] + more[m]);
          own.set(cell, most);
        }
      }
    }
    return { name, own };
  });
}

/** Whether some published total above a cell leaves to others none, or all, beside what the sender has. */
function acceptance(known: Joined) {
  const above = new Map<number, number[]>();
  for (const { total, parts } of known.sums) {
    for (const part of parts) above.set(part, [...(above.get(part) ?? []), total]);
  }
  for (const { whole, parts } of known.covers) {
    for (const part of parts) above.set(part, [...(above.get(part) ?? []), whole]);
  }
  const settles = (cell: number, own: ReadonlyMap<number, Results>): boolean => {
    const { counts } = known.cells[cell]!;
    const mine = own.get(cell) ?? [0, 0, 0];
    const left = counts && ([counts[0] - mine[0], counts[1] + counts[2] - mine[1] - mine[2]] as const);
    if (left && (left[0] <= 0 || left[1] <= 0)) return true;
    return (above.get(cell) ?? []).some((total) => settles(total, own));
  };
  return (cell: number, own: ReadonlyMap<number, Results>) =>
    (above.get(cell) ?? []).some((total) => settles(total, own));
}

function truthPoint(known: Joined, system: ReaderSystem): Float64Array {
  const point = Float64Array.from(system.lower);
  for (const { cells, column } of system.suspects) {
    const { truth, more } = known.cells[cells[0]!]!.sights.at(-1)!;
    if (!truth) continue;
    const counts = [truth.resistant, truth.someSurvivors, truth.susceptible];
    for (const m of [0, 1, 2] as const) point[column + m] = counts[m]! + more[m];
  }
  return point;
}

/** Whether those in the cell beside the sender could not be shown by themselves. Nobody at all is no secret. */
function areFew(known: Joined, cell: number, own: Results | undefined, policy: Policy): boolean {
  const sight = known.cells[cell]!.sights.at(-1)!;
  if (!sight.truth) return false;
  const [mine, mineResistant] = own ? [own[0] + own[1] + own[2], own[0]] : [0, 0];
  const tested = sight.truth.tested - mine;
  if (tested <= 0) return false;
  // Where the sender is the largest, the next largest is not known here: as large as it can be.
  const largestOperation = Math.min(sight.truth.largestOperation, tested);
  const operations = sight.truth.operations - (mine > 0 ? 1 : 0);
  const others = {
    ...sight.truth,
    tested,
    resistant: sight.truth.resistant - mineResistant,
    operations,
    largestOperation,
  };
  return isForbidden({ ...sight, truth: others }, policy);
}

function openingPoints(attacker: Attacker, columns: readonly number[]): Float64Array[] {
  return Array.from({ length: OPENING }, (_, i) => {
    const mixed = columns.map((column) => [column, weight(column, i)] as const);
    return attacker.extreme(mixed, 1)?.point;
  }).filter((point) => point !== undefined);
}

/** How far one can go from the truth towards a point and still hold in each unknown what the sender has in it. */
function shareWithin(
  point: Float64Array,
  truth: Float64Array,
  floors: readonly (readonly [number, number])[],
): number {
  let share = 1;
  for (const [column, value] of floors) {
    const fall = truth[column]! - point[column]!;
    if (fall > 0) share = Math.min(share, Math.max(0, truth[column]! - value) / fall);
  }
  return share;
}

function isExact(
  attacker: Attacker,
  terms: Terms,
  floors: readonly (readonly [number, number])[],
  learn: (point: Float64Array) => void = () => {},
): boolean {
  return attacker.knowing(floors, () => {
    const high = attacker.extreme(terms, 1);
    const low = attacker.extreme(terms, -1);
    if (!high || !low) return false;
    for (const { point } of [high, low]) learn(point);
    return !(Math.floor(high.value + EPS) > Math.ceil(low.value - EPS));
  });
}

function breachOf(
  known: Joined,
  cell: number,
  quantity: InsiderBreach['quantity'],
  holdings: readonly Holdings[],
  name: string,
): InsiderBreach {
  const key = cellKeyText(known.cells[cell]!.sights.at(-1)!.shown);
  return { ...known.pair, cell: key, quantity, own: holdings.at(-1)!.get(name) ?? new Map() };
}

/** Spread over −1 … 1, the same on every run. */
function weight(column: number, round: number): number {
  let mix = Math.imul(column + 7, 0x85ebca6b) ^ Math.imul(round + 3, 0x9e3779b1);
  mix = Math.imul(mix ^ (mix >>> 16), 0x7feb352d);
  return ((mix ^ (mix >>> 15)) >>> 0) / 2147483648 - 1;
}
