import type { Highs } from 'highs';
import type { Cell } from '@/lib/cube/types';
import { areaKey, joinedAreas } from '@/lib/geography/areas';
import type { AreaTable } from '@/lib/geography/types';
import type { Period, PlaceStatus } from '@/lib/vocabulary/terms';
import { blocksOf } from './blocks';
import { isWhole } from './cell-order';
import type { LinkedTable } from './linked-table';
import { needsOf } from './needs';
import type { Place, Places } from './places';
import { isPrimary } from './primary';
import { isSettled, isUnanimous } from './settled-outcome';
import { type Sentence, ShiftModel, unitOf, type Wish } from './shift-model';
import type { Policy } from './types';
import type { UnionOf } from './union';

export type StatusOf = Place & { status: PlaceStatus };

/** A status that says something about withheld cells together: it must be affordable. */
interface Claim {
  place: Place;
  cells: number[];
  confirmed: boolean;
}

export interface StatusQuestion {
  table: LinkedTable;
  primary: Uint8Array;
  withheld: Uint8Array;
  places: Places;
  /** Of this species. */
  areas: readonly AreaTable[];
  windows: readonly Period[];
  policy: Policy;
  unionOf: UnionOf;
  /** False: nothing is said of withheld cells. */
  claims: boolean;
  /** True where earlier releases may have put a protection beyond reach, which then no status takes away. */
  isBound: boolean;
}

/**
 * What may be said of each district, area and county over all closed windows, for one pair. A county that is part of an
 * area in some window is spoken of only where a window in which it stands alone says that resistance was confirmed.
 *
 * Read off published window cells where they suffice. Else, where the withheld windows together pass the primary rule
 * (so that no single sender is told of), the truth about them, if every withheld cell keeps its protection with this
 * sentence public; a sentence that costs protection is not said.
 */
export function statusesOf(highs: Highs, question: StatusQuestion): StatusOf[] {
  const { table, withheld, places, areas } = question;
  const windowCells = cellsByPlace(question);
  const claims: Claim[] = [];
  const joined = new Set(areas.flatMap(joinedAreas).flat());
  const statuses = [...places.all, ...areaPlaces(areas)].map((place): StatusOf => {
    const cells = windowCells.get(keyOf(place)) ?? [];
    const plain = plainStatus(table, withheld, cells);
    if (place.placeKind === 'county' && joined.has(place.place))
      return { ...place, status: plain === 'confirmed' ? plain : 'no public information' };
    if (plain !== null) return { ...place, status: plain };
    const claim = question.claims ? claimOf(place, cells, question) : null;
    if (claim) claims.push(claim);
    return { ...place, status: 'no public information' };
  });
  const said = affordable(highs, question, claims);
  const saidOf = new Map(said.map((claim) => [keyOf(claim.place), claim]));
  return statuses.map((entry) => {
    const claim = saidOf.get(keyOf(entry));
    return claim ? { ...entry, status: claim.confirmed ? 'confirmed' : 'none confirmed' } : entry;
  });
}

/** Areas of several counties, each once. */
function areaPlaces(areas: readonly AreaTable[]): Place[] {
  const keys = new Set(areas.flatMap(joinedAreas).map(areaKey));
  return [...keys].map((place) => ({ placeKind: 'area', place }));
}

function cellsByPlace({ table, windows }: StatusQuestion): Map<string, number[]> {
  const byPlace = new Map<string, number[]>();
  for (const [i, cell] of table.cells.entries()) {
    if (!isWhole(cell) || !isWindow(cell, windows)) continue;
    const list = byPlace.get(keyOf(cell));
    if (list) list.push(i);
    else byPlace.set(keyOf(cell), [i]);
  }
  return byPlace;
}

/** The status that published cells alone give; null where withheld ones would have to speak. */
function plainStatus(table: LinkedTable, withheld: Uint8Array, cells: number[]): PlaceStatus | null {
  if (cells.length === 0) return 'not screened';
  const published = cells.filter((i) => withheld[i] === 0);
  if (published.some((i) => table.cells[i]!.resistant > 0)) return 'confirmed';
  return published.length === cells.length ? 'none confirmed' : null;
}

function claimOf(place: Place, windowCells: number[], question: StatusQuestion): Claim | null {
  const { table, withheld, policy, unionOf } = question;
  const cells = windowCells.filter((i) => withheld[i] === 1);
  const { species, group } = table.cells[cells[0]!]!;
  const periods = cells.map((i) => table.cells[i]!.period);
  const union = unionOf({ ...place, species, group, periods });
  const tested = cells.reduce((sum, i) => sum + table.cells[i]!.tested, 0);
  if (union.tested !== tested)
    throw new Error(
      `${place.placeKind} ${place.place}, ${species} × group ${group}: the withheld windows hold ${tested} tested ` +
        `populations but their union holds ${union.tested}. Cells and union must come from the same facts.`,
    );
  return isPrimary(union, policy) ? null : { place, cells, confirmed: union.resistant > 0 };
}

/** Leaves out the sentences that would cost a withheld cell its protection. */
function affordable(highs: Highs, question: StatusQuestion, claims: Claim[]): Claim[] {
  const { table, withheld } = question;
  const links = claims.map(({ cells }) => cells);
  const apart = new Set(links.flat());
  const said: Claim[] = [];
  for (const block of blocksOf(table, withheld, () => false, links, apart)) {
    const unit = new Map(block.units.flatMap((cells, u) => cells.map((cell) => [cell, u] as const)));
    const own = claims.filter(({ cells }) => unit.has(cells[0]!));
    if (own.length === 0) continue;
    const sentences = own.map(({ cells, confirmed }) => ({
      units: cells.map((i) => unit.get(i)!),
      confirmed,
    }));
    const units = block.units.map((cells) => unitOf(table.cells, cells));
    const model = new ShiftModel(highs, units, block.sums, sentences);
    const kept = keep(model, question, block.units, own, sentences);
    model.dispose();
    said.push(...own.filter((_, s) => kept[s]));
  }
  return said;
}

function keep(
  model: ShiftModel,
  question: StatusQuestion,
  units: number[][],
  claims: Claim[],
  sentences: Sentence[],
): boolean[] {
  const kept = claims.map(() => true);
  const granted = new Set<string>();
  const wanted = () => openWishes(model, question, units, claims, sentences, kept);
  let wishesLeft = wanted();
  const drop = (s: number) => {
    kept[s] = false;
    model.setSentencePrice(s, 0);
    wishesLeft = wanted();
  };
  for (const [s, { place }] of claims.entries()) {
    model.setSentencePrice(s, place.placeKind === 'district' ? 3 : 1);
  }
  for (;;) {
    const open = wishesLeft.filter(({ key }) => !granted.has(key));
    if (open.length === 0) return kept;
    const { wishes, sentence } = open[0]!;
    const shifts = wishes.map((wish) => model.grant(wish)).filter((shift) => shift !== null);
    const best = shifts.sort((a, b) => a.cost - b.cost)[0];
    if (sentence !== undefined && (!best || best.cost > 1e-6)) {
      drop(sentence);
      continue;
    }
    if (!best) {
      if (!question.isBound)
        throw new Error('a withheld cell lost its protection although no status was said');
      granted.add(open[0]!.key);
      continue;
    }
    for (const [s, broken] of best.broken.entries()) if (kept[s] && broken > 1e-6) drop(s);
    granted.add(open[0]!.key);
    for (const { key, wishes } of open) if (wishes.some((wish) => model.grants(best, wish))) granted.add(key);
  }
}

interface OpenWish {
  key: string;
  wishes: Wish[];
  sentence?: number;
}

/** What must stay possible beside the sentences that are still kept, and the truth does not show already. */
function openWishes(
  model: ShiftModel,
  { table, primary, withheld, policy }: StatusQuestion,
  units: number[][],
  claims: Claim[],
  sentences: Sentence[],
  kept: boolean[],
): OpenWish[] {
  const none = new Set(claims.flatMap(({ cells, confirmed }, s) => (kept[s] && !confirmed ? cells : [])));
  const says = (cell: number) => none.has(cell) || (withheld[cell] === 0 && isUnanimous(table.cells[cell]!));
  const ofUnits: OpenWish[] = units.flatMap((cells, unit) => {
    const members = cells.map((i) => ({
      cell: table.cells[i]!,
      least: table.least[i]!,
      primary: primary[i] === 1,
      earlier: [],
    }));
    return needsOf(unit, members, isSettled(table, cells[0]!, says), policy.minimumTested);
  });
  const ofSentences: OpenWish[] = sentences.flatMap(({ confirmed }, sentence) =>
    confirmed && kept[sentence] ? [bothWays(sentence, 'at most', 1), bothWays(sentence, 'at least', 2)] : [],
  );
  return [...ofSentences, ...ofUnits].filter(({ wishes }) => !wishes.some((wish) => isTrue(model, wish)));
}

/** Where "confirmed" is said of withheld cells together, one resistant and two must both stay possible. */
function bothWays(sentence: number, sense: Wish['sense'], value: number): OpenWish {
  const wish: Wish = { subject: { sentence }, quantity: 'resistant', sense, value };
  return { key: `sentence ${sentence} ${sense}`, wishes: [wish], sentence };
}

function isTrue(model: ShiftModel, wish: Wish): boolean {
  const truth = model.truthOf(wish);
  return wish.sense === 'at least' ? truth >= wish.value : truth <= wish.value;
}

function isWindow({ period }: Cell, windows: readonly Period[]): boolean {
  return windows.some(({ first, last }) => first === period.first && last === period.last);
}

function keyOf({ placeKind, place }: Place): string {
  return `${placeKind} ${place}`;
}
