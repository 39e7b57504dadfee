import type { Highs } from 'highs';
import { cellKeyText } from '../cell-order';
import { loadSolver } from '../solver';
import type { InsiderBreach, Policy, Results } from '../types';
import type { Terms } from './attacker';
import { type AuditedRelease, type Joined, joinReleases } from './join';
import { type Component, componentsOf, type LinearSystem, propagate } from './linear-system';
import { type Floors, NearbyTruths } from './nearby-truths';
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
/** Moves that are kept with each number. */
const MOVES = 24;

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
 * @throws Error where the truth does not fit what the releases say
 * @cost a program or two for each number that is asked about, and one or two more for each sender with counts in the way
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
  const system = readerSystem(known, true);
  if (!propagate(system)) return { breaches: [], senders: 0, programs: 0 };
  const senders = sendersOf(known, releases, holdings);
  const report: InsiderReport = { breaches: [], senders: senders.length, programs: 0 };
  const said = publiclySaid(known);
  const isAccepted = acceptance(known);
  const stood = known.cells.some((cell) => cell.stood) ? beforeThis(highs, known) : null;
  for (const part of partsOf(known, system, senders)) {
    if (part.readers.length === 0) continue;
    const asked = part.targets.filter(({ cell }) => !said(cell));
    const isSecret = ({ cell }: Target, { own }: Reader) =>
      areFew(known, cell, own.get(cell), policy) && !isAccepted(cell, own);
    const told = whoCanTell(highs, system, { ...part, targets: asked }, isSecret);
    report.programs += told.programs;
    for (const [{ name, own }, { cell, quantity }] of told.exact) {
      if (stood?.isExact(cell, quantity, own)) continue;
      report.breaches.push(breachOf(known, cell, quantity, holdings, name));
    }
  }
  report.programs += stood?.programs() ?? 0;
  stood?.dispose();
  return report;
}

/** Whether a sender could say the number already if the release withheld all that no earlier one shows. */
function beforeThis(highs: Highs, known: Joined) {
  const before = asItStood(known);
  const system = readerSystem(before, true);
  if (!propagate(system)) return null;
  const opened = new Map<Part, NearbyTruths>();
  const parts = partsOf(before, system, []);
  const columnOf = firstColumns(system);
  return {
    isExact(cell: number, quantity: InsiderBreach['quantity'], own: ReadonlyMap<number, Results>): boolean {
      if (!columnOf.has(cell)) return false;
      for (const part of parts) {
        const t = part.targets.findIndex((target) => target.cell === cell && target.quantity === quantity);
        if (t < 0) continue;
        const nearby = opened.get(part) ?? nearbyIn(highs, system, part);
        opened.set(part, nearby);
        const floors = floorsOf(columnOf, own);
        return !nearby.nearest(t, 1, floors) && !nearby.nearest(t, -1, floors);
      }
      return true;
    },
    programs: () => [...opened.values()].reduce((sum, { programs }) => sum + programs, 0),
    dispose: () => {
      for (const nearby of opened.values()) nearby.dispose();
    },
  };
}

/** A component of the system, the numbers in it that are asked about, and the senders who know something of it. */
interface Part {
  component: Component;
  truth: Float64Array;
  targets: Target[];
  readers: Reader[];
}

/** One number of a withheld cell. */
interface Target {
  cell: number;
  quantity: InsiderBreach['quantity'];
  terms: Terms;
}

interface Reader extends Sender {
  floors: Map<number, number>;
}

function partsOf(known: Joined, system: ReaderSystem, senders: readonly Sender[]): Part[] {
  const truth = truthPoint(known, system);
  const parts = componentsOf(system).map(
    (component): Part => ({ component, truth, targets: [], readers: [] }),
  );
  const partOf = new Map(
    parts.flatMap((part) => part.component.columns.map((column) => [column, part] as const)),
  );
  const columnOf = firstColumns(system);
  for (const [cell, column] of columnOf) {
    for (const quantity of ['resistant', 'not resistant'] as const) {
      const terms: Terms = (quantity === 'resistant' ? [0] : [1, 2]).map((m) => [column + m, 1] as const);
      const free = terms.find(([at]) => partOf.has(at));
      if (free) partOf.get(free[0])!.targets.push({ cell, quantity, terms });
    }
  }
  for (const sender of senders) {
    const floorsIn = new Map<Part, Map<number, number>>();
    for (const [column, floor] of floorsOf(columnOf, sender.own)) {
      const part = partOf.get(column);
      if (part) floorsIn.set(part, (floorsIn.get(part) ?? new Map<number, number>()).set(column, floor));
    }
    for (const [part, floors] of floorsIn) part.readers.push({ ...sender, floors });
  }
  return parts;
}

/** Column of the resistant of each withheld cell. */
function firstColumns({ suspects }: ReaderSystem): Map<number, number> {
  return new Map(suspects.map(({ cells, column }) => [cells[0]!, column]));
}

/** What a sender has, by column. */
function floorsOf(columnOf: ReadonlyMap<number, number>, own: ReadonlyMap<number, Results>) {
  const floors = new Map<number, number>();
  for (const [cell, mine] of own) {
    const first = columnOf.get(cell);
    if (first === undefined) continue;
    for (const m of [0, 1, 2] as const) if (mine[m] > 0) floors.set(first + m, mine[m]);
  }
  return floors;
}

function nearbyIn(highs: Highs, system: LinearSystem, { component, truth, targets }: Part): NearbyTruths {
  const quantities = targets.map(({ terms }) => terms);
  return new NearbyTruths(highs, system, component, truth, quantities);
}

/**
 * Which readers of a part could say which of its numbers. A number is not exact to a reader where some other truth that holds
 * his own counts has it larger or smaller by one. Moves to such truths are near, so most readers have nothing in any cell
 * that a move touches, and only the few who have are asked further.
 *
 * @param isSecret whether the reader may not say the number
 */
function whoCanTell(
  highs: Highs,
  system: ReaderSystem,
  part: Part,
  isSecret: (target: Target, reader: Reader) => boolean,
): { exact: [Reader, Target][]; programs: number } {
  const { truth, targets, readers } = part;
  const nearby = nearbyIn(highs, system, part);
  const holders = new Map<number, Reader[]>();
  for (const reader of readers) for (const column of reader.floors.keys()) add(holders, column, reader);
  const targetsAt = new Map<number, number[]>();
  for (const [t, { terms }] of targets.entries()) for (const [column] of terms) add(targetsAt, column, t);
  /** By target: for each move that changes it, the readers who know that the move is not so. */
  const excluded: Set<Reader>[][] = targets.map(() => []);
  const move = (t: number, floors?: Floors): boolean => {
    const found = nearby.nearest(t, 1, floors) ?? nearby.nearest(t, -1, floors);
    if (!found) return false;
    const knowing = new Set(
      [...found].flatMap(([column, change]) =>
        (holders.get(column) ?? []).filter(
          ({ floors: own }) => truth[column]! + change < own.get(column)! - EPS,
        ),
      ),
    );
    for (const other of new Set([...found.keys()].flatMap((column) => targetsAt.get(column) ?? []))) {
      const change = targets[other]!.terms.reduce((sum, [column]) => sum + (found.get(column) ?? 0), 0);
      if (Math.abs(change) >= 1 - EPS && excluded[other]!.length < MOVES) excluded[other]!.push(knowing);
    }
    return true;
  };
  try {
    const exact: [Reader, Target][] = [];
    for (const [t, target] of targets.entries()) {
      const isMoved = excluded[t]!.length > 0 || move(t);
      for (const reader of isMoved ? excluded[t]![0]! : readers) {
        if (excluded[t]!.some((knowing) => !knowing.has(reader))) continue;
        if (!isSecret(target, reader) || (isMoved && move(t, reader.floors))) continue;
        exact.push([reader, target]);
      }
    }
    const order = new Map(readers.map((reader, r) => [reader, r]));
    return {
      exact: exact.sort(([a], [b]) => order.get(a)! - order.get(b)!),
      programs: nearby.programs,
    };
  } finally {
    nearby.dispose();
  }
}

function add<K, T>(lists: Map<K, T[]>, key: K, value: T): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
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
      add(at, key, { cell, more });
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
