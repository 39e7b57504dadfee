import { activeResultsOf, isTested, senderOf } from '@/lib/cube/facts';
import { multipleFactOf, multipleFacts, SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { CellKey, Fact } from '@/lib/cube/types';
import { cellKeyText, isWhole } from '@/lib/disclosure/cell-order';
import type { LadderQuestion } from '@/lib/disclosure/ladder';
import type { PlaceTree } from '@/lib/disclosure/places';
import { isPrimary } from '@/lib/disclosure/primary';
import { type EarlierCube, tableOf } from '@/lib/disclosure/standing';
import type { AreaTable } from '@/lib/geography/types';
import { cropNamed } from '@/lib/vocabulary/crops';
import type { Eppo, Fips, Group, Season } from '@/lib/vocabulary/terms';
import { type Move, type Shortfall, shortfallOf } from './batch-rule';
import { type CellEntry, createCellFinder } from './cell-finder';

/** An earlier release with what it was made of. Private. */
export interface PastRelease {
  number: number;
  cube: EarlierCube['cube'] & { firstSeason: Season };
  places: PlaceTree;
  /** As they stood then; with consent only. */
  facts: readonly Fact[];
}

export interface RevisionQuestion {
  /** As they stand now; with consent only. */
  facts: readonly Fact[];
  /** Oldest first. */
  past: readonly PastRelease[];
  question: LadderQuestion;
  places: PlaceTree;
  /** Of the windows that were released before, with counties that came since. */
  areas: readonly AreaTable[];
  /** Which results count towards resistance to several groups. */
  isShown: (fact: Fact) => boolean;
  /** Pairs (`species|group`) and cells (`cellKeyText`) of which nothing may change: their protection would be lost. */
  halted?: ReadonlySet<string>;
}

export type WaitReason =
  | Shortfall
  | 'a shown cell would have to be withheld'
  | 'a withheld cell would be told'
  | 'audit';

/** Samples of one county, season, species and group that a release leaves as they were. Private. */
export interface Waiting {
  county: Fips;
  season: Season;
  species: Eppo;
  group: Group;
  /** Populations that would enter, leave or change. */
  entering: number;
  leaving: number;
  corrected: number;
  why: { reason: WaitReason; cell: CellKey | null };
}

export interface Revision {
  /** What the release is made of. */
  facts: Fact[];
  waiting: Waiting[];
  /** Changes of released cells that nothing can make wait: places were recoded. Such a release must not be made. */
  stuck: { release: number; cell: CellKey; reason: WaitReason }[];
}

/**
 * Chooses which late samples, corrections and withdrawals enter a release: those that leave every cell of every earlier
 * release, shown or withheld, either as it was or changed by a batch that may be shown by itself (`shortfallOf`). So a reader
 * may know every difference between two releases and learns nothing that the primary rule forbids. A cell that was shown
 * must still be fit to be shown, one that was withheld must not vanish, nor shrink where the primary rule withheld it.
 *
 * What fails waits in whole units: all changes of a county × season × species × group, with those of other units that share a
 * population. Units of the finest failing cells wait first, then all is judged again, until nothing fails. This is safe and
 * always the same, not the largest choice there is.
 *
 * @cost O(cells touched by changes) a round, and one pass over the facts of the pairs that change
 */
export function chooseRevision(asked: RevisionQuestion): Revision {
  const last = asked.past.at(-1);
  if (!last) return { facts: [...asked.facts], waiting: [], stuck: [] };
  const changes = changesBetween(last.facts, asked.facts);
  const waits = new Map<string, Waiting['why']>();
  const told = new Set(asked.past.flatMap(({ cube }) => [...cube.closedSeasons, cube.openSeason]));
  for (const { unit, before, after } of changes.values()) {
    const { species, group } = (after ?? before)!;
    const isTold = [before, after].some((fact) => fact && told.has(fact.season));
    const isHalted = [group, SEVERAL_GROUPS].some((one) => asked.halted?.has(`${species}|${one}`));
    if (isTold && isHalted) waits.set(unit, { reason: 'audit', cell: null });
  }
  const judge = createJudge(asked, changes);
  for (;;) {
    const failing = judge(waits);
    const finest = Math.min(
      ...failing.filter(({ units }) => units.size > 0).map(({ cell }) => fineness(cell)),
    );
    if (finest === Infinity) {
      const stuck = failing.map(({ release, cell, reason }) => ({ release, cell, reason }));
      return { facts: settled(asked.facts, changes, waits), waiting: waitingOf(changes, waits), stuck };
    }
    for (const { cell, reason, units } of failing) {
      if (fineness(cell) !== finest) continue;
      for (const unit of units) if (!waits.has(unit)) waits.set(unit, { reason, cell });
    }
  }
}

interface Change extends Move {
  unit: string;
}

function changesBetween(before: readonly Fact[], after: readonly Fact[]): Map<string, Change> {
  const earlier = byKey(before);
  const later = byKey(after);
  const changes = new Map<string, Change>();
  const root = new Map<string, string>();
  const find = (unit: string): string => {
    let at = unit;
    while (root.has(at)) at = root.get(at)!;
    return at;
  };
  for (const key of new Set([...earlier.keys(), ...later.keys()])) {
    const move = { before: earlier.get(key) ?? null, after: later.get(key) ?? null };
    if (isSame(move.before, move.after)) continue;
    const [one, other] = [move.before ?? move.after, move.after ?? move.before]
      .map((fact) => find(unitOf(fact!)))
      .sort();
    if (one !== other) root.set(other!, one!);
    changes.set(key, { ...move, unit: unitOf((move.after ?? move.before)!) });
  }
  for (const change of changes.values()) change.unit = find(change.unit);
  return changes;
}

interface Failing {
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

function createJudge(asked: RevisionQuestion, changes: ReadonlyMap<string, Change>) {
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

/** For each population of which anything differs between any releases, by the key of its fact about several groups, the keys of its others. */
function severalKeys(
  past: readonly (readonly Fact[])[],
  changes: ReadonlyMap<string, Change>,
): Map<string, string[]> {
  const states = new Map<string, Fact>();
  const differing = new Set<string>();
  for (const facts of past) {
    for (const fact of facts) {
      const key = keyOf(fact);
      const before = states.get(key);
      if (before !== undefined && !isSame(before, fact)) differing.add(fact.population);
      states.set(key, fact);
    }
  }
  const last = new Set(past.at(-1)!.map(keyOf));
  for (const [key, { population }] of states) if (!last.has(key)) differing.add(population);
  const first = new Set(past[0]!.map(keyOf));
  for (const [key, { population }] of states) if (!first.has(key)) differing.add(population);
  for (const [key, { before, after }] of changes) {
    states.set(key, (after ?? before)!);
    differing.add((after ?? before)!.population);
  }
  const keys = new Map<string, string[]>();
  for (const [key, fact] of states) {
    if (!differing.has(fact.population) || fact.assay !== 'whole plant') continue;
    const several = keyOf({ ...fact, group: SEVERAL_GROUPS });
    keys.set(several, [...(keys.get(several) ?? []), key]);
  }
  return keys;
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

function settled(
  facts: readonly Fact[],
  changes: ReadonlyMap<string, Change>,
  waits: ReadonlyMap<string, unknown>,
): Fact[] {
  const asBefore = (fact: Fact): Fact[] => {
    const change = changes.get(keyOf(fact));
    if (!change || !waits.has(change.unit)) return [fact];
    return change.before ? [change.before] : [];
  };
  const staying = [...changes.values()].filter(({ after, unit }) => after === null && waits.has(unit));
  return [...facts.flatMap(asBefore), ...staying.map(({ before }) => before!)];
}

function waitingOf(
  changes: ReadonlyMap<string, Change>,
  waits: ReadonlyMap<string, Waiting['why']>,
): Waiting[] {
  const found = new Map<string, Waiting>();
  for (const { before, after, unit } of changes.values()) {
    const why = waits.get(unit);
    if (!why) continue;
    const { county, season, species, group } = (after ?? before)!;
    const key = unitOf((after ?? before)!);
    const entry = found.get(key) ?? {
      ...{ county, season, species, group, entering: 0, leaving: 0, corrected: 0, why },
    };
    entry[before === null ? 'entering' : after === null ? 'leaving' : 'corrected'] += 1;
    found.set(key, entry);
  }
  return [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, entry]) => entry);
}

/** Finest first: counties and areas, districts, designs and assays, states, the region; seasons before windows. */
function fineness({ placeKind, design, part, assay, period }: CellKey): number {
  const kind = { county: 0, area: 0, district: 1, state: 3, region: 4 }[placeKind];
  const table = kind > 1 && (design !== null || part || assay !== 'whole plant') ? 2 : kind;
  return table * 2 + (period.last > period.first ? 1 : 0);
}

function keyOf({ population, group, assay }: Fact): string {
  return `${population}|${group}|${assay}`;
}

function byKey(facts: readonly Fact[]): Map<string, Fact> {
  return new Map(facts.map((fact) => [keyOf(fact), fact]));
}

function unitOf({ county, season, species, group, assay, design }: Fact): string {
  return `${county}|${season}|${species}|${group}|${assay}|${design}`;
}

/** Whether a release would show these facts of a population as it shows those. */
export function sameFacts(a: readonly Fact[], b: readonly Fact[]): boolean {
  const others = byKey(b);
  return a.length === b.length && a.every((fact) => isSame(fact, others.get(keyOf(fact)) ?? null));
}

/** Whether two states of a population are the same to a release: its funder is never shown. */
function isSame(a: Fact | null, b: Fact | null): boolean {
  if (a === b) return true;
  if (a === null || b === null) return false;
  return (
    a.county === b.county &&
    a.season === b.season &&
    a.species === b.species &&
    a.group === b.group &&
    a.assay === b.assay &&
    a.design === b.design &&
    a.operation === b.operation &&
    a.result === b.result &&
    a.actives.join() === b.actives.join() &&
    cropNamed(a.crop) === cropNamed(b.crop) &&
    byActiveText(a) === byActiveText(b)
  );
}

function byActiveText(fact: Fact): string {
  return activeResultsOf(fact)
    .map(({ active, result }) => `${active}: ${result}`)
    .join();
}

/** The cells of a fact by their text, worked out once for each fact. */
function remembered(find: (fact: Fact) => CellEntry[]): (fact: Fact) => ReadonlyMap<string, CellEntry> {
  const known = new WeakMap<Fact, Map<string, CellEntry>>();
  return (fact) => {
    let cells = known.get(fact);
    if (!cells) {
      cells = new Map(find(fact).map((entry) => [cellKeyText(entry.cell), entry]));
      known.set(fact, cells);
    }
    return cells;
  };
}
