import { isTested, senderOf } from '@/lib/cube/facts';
import { multipleFactOf, multipleFacts, SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { CellKey, Fact } from '@/lib/cube/types';
import { cellKeyText, isWhole } from '@/lib/disclosure/cell-order';
import type { PlaceTree } from '@/lib/disclosure/places';
import { isPrimary } from '@/lib/disclosure/primary';
import { tableOf } from '@/lib/disclosure/standing';
import type { Fips } from '@/lib/vocabulary/terms';
import { type Move, shortfallOf } from '../batch-rule';
import { type CellEntry, createCellFinder } from '../cell-finder';
import type { Change } from './changes';
import { byKey, isSame } from './same-fact';
import { severalKeys } from './several-keys';
import type { PastRelease, RevisionQuestion, WaitReason } from './types';

/** A cell of an earlier release whose change may not be told, and the units that change it. */
export interface Failing {
  release: number;
  cell: CellKey;
  reason: WaitReason;
  units: Set<string>;
}

interface Touched {
  release: number;
  cell: CellKey;
  moves: Move[];
  units: Set<string>;
}

/** What judges, given the units that wait, which cells of which earlier release may not change as they would. */
export function createJudge(asked: RevisionQuestion, changes: ReadonlyMap<string, Change>) {
  const { past, question, places, areas } = asked;
  const last = byKey(past.at(-1)!.facts);
  const cellsNow = remembered(createCellFinder(question, places, areas));
  const several = severalKeys(
    past.map(({ facts }) => facts),
    changes,
  );
  const severalOf = (own: readonly Fact[]) => multipleFactOf(own.filter(asked.isShown));
  for (const [key, own] of several) setIfAny(last, key, severalOf(found(own, last)));
  const views = past.map((release) => {
    const facts = byKey(release.facts);
    for (const [key, own] of several) setIfAny(facts, key, severalOf(found(own, facts)));
    const { firstSeason, closedSeasons, openSeason } = release.cube;
    const then = { policy: question.policy, firstSeason, closedSeasons, openSeason };
    const cells = remembered(createCellFinder(then, release.places, release.cube.areas));
    const shown = [...release.cube.cells, ...release.cube.further];
    const looks = new Map(shown.map((cell) => [cellKeyText(cell), cell.status]));
    const receipts = new Set(release.cube.cells.filter(({ receipt }) => receipt).map(cellKeyText));
    const moved = movedCounties(release.places, places);
    const since = [...new Set([...facts.keys(), ...last.keys()])].filter((key) => {
      const [a, b] = [facts.get(key) ?? null, last.get(key) ?? null];
      return !isSame(a, b) || (a !== null && moved.has(a.county));
    });
    const keys = new Set([...since, ...changes.keys()]);
    for (const [key, own] of several) if (own.some((one) => keys.has(one))) keys.add(key);
    return { release, facts, cells, looks, receipts, keys };
  });
  const others = byKey(multipleFacts(asked.past.at(-1)!.facts, asked.isShown));
  let members = new Map<string, Map<string, Fact>>();

  return (waits: ReadonlyMap<string, unknown>): Failing[] => {
    const ofSeveral = new Map<string, Fact | null>();
    const standing = (key: string): Fact | null => {
      const own = several.get(key);
      if (own) {
        const made = ofSeveral.get(key) ?? severalOf(own.flatMap((one) => standing(one) ?? []));
        ofSeveral.set(key, made);
        return made;
      }
      const change = changes.get(key);
      if (!change) return last.get(key) ?? null;
      return waits.has(change.unit) ? change.before : change.after;
    };
    const touched = views.flatMap((view) => touchedCells(view, standing, waits));
    const texts = new Set(touched.map(({ cell }) => cellKeyText(cell)));
    if ([...texts].some((text) => !members.has(text)))
      members = membersOf(texts, [...last, ...others], cellsNow);
    const moving = movingFacts(texts, standing);
    return touched.flatMap(({ release, cell, moves, units }): Failing[] => {
      const text = cellKeyText(cell);
      const view = views.find((one) => one.release.number === release)!;
      const reason =
        (asked.halted?.has(text) && units.size > 0 ? 'audit' : null) ??
        shortfallOf(moves, view.receipts.has(text) || isBlank(view.looks, cell), question.policy) ??
        aftermath(view.release, view.looks.get(text), cell, moves, factsNow(text, moving));
      return reason ? [{ release, cell, reason, units }] : [];
    });
  };

  function touchedCells(
    { release, facts, cells, keys }: (typeof views)[number],
    standing: (key: string) => Fact | null,
    waits: ReadonlyMap<string, unknown>,
  ) {
    const touched = new Map<string, Touched>();
    for (const key of keys) {
      const [before, after] = [facts.get(key) ?? null, standing(key)];
      const inCells = new Map<string, Move & { cell: CellKey }>();
      if (before) {
        for (const [text, { cell, fact }] of cells(before))
          inCells.set(text, { cell, before: fact, after: null });
      }
      if (after) {
        for (const [text, { cell, fact }] of cellsNow(after))
          inCells.set(text, { cell, before: inCells.get(text)?.before ?? null, after: fact });
      }
      for (const [text, { cell, ...move }] of inCells) {
        if (isSame(move.before, move.after) || tableOf(release.cube, cell) === null) continue;
        const entry = touched.get(text) ?? { release: release.number, cell, moves: [], units: new Set() };
        entry.moves.push(move);
        touched.set(text, entry);
      }
    }
    // What goes back to what a release had moves nothing beside it, and yet is what the others are left alone by.
    const tie = (before: Fact | null, after: Fact | null, units: readonly string[]) => {
      const inside = [before && cells(before), before && cellsNow(before), after && cellsNow(after)];
      for (const text of inside.flatMap((found) => [...(found?.keys() ?? [])]))
        for (const unit of units) touched.get(text)?.units.add(unit);
    };
    for (const { before, after, unit } of changes.values()) if (!waits.has(unit)) tie(before, after, [unit]);
    for (const [key, own] of several) {
      const units = own.flatMap((one) => changes.get(one)?.unit ?? []).filter((unit) => !waits.has(unit));
      if (units.length > 0) tie(last.get(key) ?? null, standing(key), units);
    }
    return [...touched.values()];
  }

  /** What changes, in the cells in which it counts as it stands. */
  function movingFacts(
    texts: ReadonlySet<string>,
    standing: (key: string) => Fact | null,
  ): Map<string, Fact[]> {
    const moving = new Map<string, Fact[]>([...texts].map((text) => [text, []]));
    for (const key of [...changes.keys(), ...several.keys()]) {
      const fact = standing(key);
      for (const [text, entry] of fact ? cellsNow(fact) : []) moving.get(text)?.push(entry.fact);
    }
    return moving;
  }

  function factsNow(text: string, moving: ReadonlyMap<string, Fact[]>): Fact[] {
    const isMoving = (key: string) => changes.has(key) || several.has(key);
    const unchanged = [...members.get(text)!].filter(([key]) => !isMoving(key)).map(([, fact]) => fact);
    return [...unchanged, ...moving.get(text)!];
  }

  /** What the cell itself would be after the change. */
  function aftermath(
    release: PastRelease,
    look: 'published' | 'withheld' | undefined,
    cell: CellKey,
    moves: readonly Move[],
    facts: readonly Fact[],
  ): WaitReason | null {
    const { policy } = question;
    const now = judgedOf(facts);
    if (look !== 'withheld') return isPrimary(now, policy) ? 'a shown cell would have to be withheld' : null;
    if (tableOf(release.cube, cell) === 'unfinished') return null;
    const more = (resistant: boolean) =>
      moves.reduce((sum, { before, after }) => sum + counts(after, resistant) - counts(before, resistant), 0);
    const grown = [more(true), more(false)];
    if (now.tested === 0) return 'a withheld cell would be told';
    const arrived = new Set(moves.map(({ after }) => after));
    const then = judgedOf([
      ...facts.filter((fact) => !arrived.has(fact)),
      ...moves.flatMap(({ before }) => before ?? []),
    ]);
    const shrinks = grown.some((by) => by < 0);
    return shrinks && isPrimary(then, policy) ? 'a withheld cell would be told' : null;
  }
}

/** Region and state show what was received even where nothing was tested before. */
function isBlank(looks: ReadonlyMap<string, unknown>, cell: CellKey): boolean {
  const coarse = cell.placeKind === 'region' || cell.placeKind === 'state';
  return coarse && isWhole(cell) && cell.group !== SEVERAL_GROUPS && !looks.has(cellKeyText(cell));
}

function membersOf(
  texts: ReadonlySet<string>,
  last: Iterable<readonly [string, Fact]>,
  cellsOf: (fact: Fact) => ReadonlyMap<string, CellEntry>,
): Map<string, Map<string, Fact>> {
  const pairs = new Set([...texts].map((text) => text.split('|').slice(3, 5).join('|')));
  const members = new Map([...texts].map((text) => [text, new Map<string, Fact>()]));
  for (const [key, fact] of last) {
    if (!pairs.has(`${fact.species}|${fact.group}`)) continue;
    for (const [text, entry] of cellsOf(fact)) members.get(text)?.set(key, entry.fact);
  }
  return members;
}

function found(keys: readonly string[], facts: ReadonlyMap<string, Fact>): Fact[] {
  return keys.flatMap((key) => facts.get(key) ?? []);
}

function setIfAny(facts: Map<string, Fact>, key: string, fact: Fact | null): void {
  if (fact) facts.set(key, fact);
}

function judgedOf(facts: readonly Fact[]) {
  const tested = facts.filter(isTested);
  const senders = new Map<string, number>();
  for (const fact of tested) senders.set(senderOf(fact), (senders.get(senderOf(fact)) ?? 0) + 1);
  return {
    tested: tested.length,
    resistant: tested.filter(({ result }) => result === 'resistant').length,
    operations: senders.size,
    largestOperation: Math.max(0, ...senders.values()),
  };
}

function counts(fact: Fact | null, resistant: boolean): number {
  return fact && isTested(fact) && (fact.result === 'resistant') === resistant ? 1 : 0;
}

/** Counties that lie elsewhere, or are not there any more. */
function movedCounties(then: PlaceTree, now: PlaceTree): Set<Fips> {
  const paths = (tree: PlaceTree) =>
    new Map(tree.counties.map(({ fips, state, district }) => [fips, `${state}|${district}`]));
  const [before, after] = [paths(then), paths(now)];
  return new Set([...before.keys(), ...after.keys()].filter((fips) => before.get(fips) !== after.get(fips)));
}

/** The cells of a fact by their text, worked out once for each fact. */
function remembered(find: (fact: Fact) => CellEntry[]): (fact: Fact) => ReadonlyMap<string, CellEntry> {
  const known = new WeakMap<Fact, Map<string, CellEntry>>();
  return (fact) => {
    let cells = known.get(fact);
    if (!cells) {
      cells = new Map(find(fact).map((entry) => [entry.text, entry]));
      known.set(fact, cells);
    }
    return cells;
  };
}
