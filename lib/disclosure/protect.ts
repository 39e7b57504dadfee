import type { Highs } from 'highs';
import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { Cell } from '@/lib/cube/types';
import { joinedAreas } from '@/lib/geography/areas';
import type { AreaTable } from '@/lib/geography/types';
import type { Period, Season } from '@/lib/vocabulary/terms';
import { cellKeyText, compareCells, isWhole } from './cell-order';
import { FURTHER_TABLES, furtherTableOf } from './further';
import { ladder } from './ladder';
import { type LinkedTable, linkStates, linkTable } from './linked-table';
import { Places, type PlaceTree } from './places';
import { checkPolicy } from './policy';
import { isPrimary, isTooThin } from './primary';
import { shownReceipts } from './receipts';
import { seal } from './released';
import { UnprotectedCell } from './settle-block';
import { loadSolver } from './solver';
import { NOTHING_STANDS, type Standing } from './standing';
import { statusesOf } from './statuses';
import type { Ties } from './ties';
import type { InsiderBreach, Policy, ReleasedCell, ReleasedCube, ReleasedStatus, SeasonTable } from './types';
import type { UnionOf } from './union';
import { fixedWindows } from './windows';
import { type SettledBlocks, withholdComplementary } from './withhold';
import { withholdActives } from './withhold-actives';

export interface GateInput {
  /** All cells of the `ladder` with received > 0, from facts with consent only, in any order. */
  cells: readonly Cell[];
  places: PlaceTree;
  /** How counties are joined (`drawAreas`). */
  areas: readonly AreaTable[];
  policy: Policy;
  firstSeason: Season;
  closedSeasons: readonly Season[];
  /** The season under way, or null. */
  openSeason: Season | null;
  /** Counts several cells of one place together (`unionFromFacts` makes one). */
  unionOf: UnionOf;
  /** What earlier releases settled. */
  standing?: Standing;
  /** What senders would learn unless more is withheld. */
  insiders?: readonly InsiderBreach[];
  /** Pairs (`species|group`) in which no status may speak of withheld cells. */
  silent?: ReadonlySet<string>;
  /** By pair (`species|group`), kept between calls on the same cells. */
  settled?: SettledPairs;
}

export type SettledPairs = Map<string, SettledBlocks>;

/** What the gate did to one pair; private (it counts what is withheld for which reason). */
export interface GateFigures {
  species: string;
  group: number;
  /** Cells with something tested. */
  tested: number;
  /** Withheld ones that fail the primary rule. */
  primary: number;
  /** Withheld ones that pass it: for the sake of others. */
  complementary: number;
}

/** What the gate lets out, and by pair how much it withholds for which reason. */
export interface Gated {
  cube: ReleasedCube;
  figures: GateFigures[];
}

/** A pair that cannot be protected beside what earlier releases show. */
export class PairUnprotected extends Error {
  constructor(
    readonly species: string,
    readonly group: number,
    reason: string,
    /** `cellKeyText` of the cell whose protection cannot be had. */
    readonly cell?: string,
  ) {
    super(`${species} × group ${group}: ${reason}`);
  }
}

/**
 * The gate: private cells in, released cube out. Primary rule, complementary withholding over the linked tables of
 * each species × group, receipts, statuses, by crop and by active. What is said of several groups together follows from it
 * (`protectSeveral`). Its output is a function of its input alone: same input, same bytes.
 *
 * @throws Error where the policy is refused, a cell is not on the ladder or given twice, or margins disagree
 * @throws PairUnprotected where what earlier releases show leaves no way to protect a pair
 */
export async function protect(input: GateInput): Promise<ReleasedCube> {
  return (await protectPairs(input)).cube;
}

/** As `protect`, with how much is withheld for which reason: for the private record. */
export async function protectPairs(input: GateInput): Promise<Gated> {
  const { policy, firstSeason, openSeason } = input;
  checkPolicy(policy);
  checkLadder(input);
  const highs = await loadSolver();
  const closedSeasons = [...input.closedSeasons].sort((a, b) => a - b);
  const windows = fixedWindows(firstSeason, closedSeasons, policy.windowLength);
  const places = new Places(input.places, input.areas);
  const seasonTables: SeasonTable[] = [];
  const cells: ReleasedCell[] = [];
  const statuses: ReleasedStatus[] = [];
  const figures: GateFigures[] = [];
  for (const pair of pairsOf(input.cells)) {
    const done = protectPair(highs, pair, input, places, windows);
    seasonTables.push(...done.tables);
    cells.push(...done.cells);
    statuses.push(...done.statuses);
    figures.push(done.figures);
  }
  const { dominanceShare: _private, ...publicPolicy } = policy;
  return {
    cube: seal({
      policy: publicPolicy,
      firstSeason,
      closedSeasons,
      openSeason,
      windows,
      seasonTables,
      areas: input.areas,
      cells: cells.filter((cell) => furtherTableOf(cell) === null),
      furtherTables: FURTHER_TABLES.filter((table) => table !== 'several groups'),
      further: cells.filter((cell) => furtherTableOf(cell) !== null),
      statuses,
    }),
    figures,
  };
}

/**
 * Puts what is said of several groups together beside the groups' own cells: primary rule, and complementary cells between
 * the states and the region. It counts results in shown cells only (`createShownResults`), so it cannot tell on withheld ones.
 *
 * @param input its cells are those about several groups
 * @param made all pairs, as `protectPairs` leaves them; cells about several groups in it are replaced
 */
export async function protectSeveral(input: GateInput, made: Gated): Promise<Gated> {
  checkLadder(input);
  const highs = await loadSolver();
  const further = made.cube.further.filter(({ group }) => group !== SEVERAL_GROUPS);
  const figures = made.figures.filter(({ group }) => group !== SEVERAL_GROUPS);
  for (const own of pairsOf(input.cells.filter(({ tested }) => tested > 0))) {
    const table = linkStates(own);
    const primary = Uint8Array.from(own, (cell) => (isPrimary(cell, input.policy) ? 1 : 0));
    const withheld = withholdPair(highs, table, primary, input);
    further.push(...own.map((cell, i) => release(cell, withheld[i] === 1, false, input.openSeason)));
    figures.push(figuresOf(own, new Set(own.filter((_, i) => withheld[i] === 1)), input.policy));
  }
  return { cube: seal({ ...made.cube, furtherTables: FURTHER_TABLES, further }), figures };
}

function protectPair(highs: Highs, pair: Cell[], input: GateInput, places: Places, windows: Period[]) {
  const { policy, openSeason, unionOf, standing = NOTHING_STANDS } = input;
  const { species, group } = pair[0]!;
  const areas = input.areas.filter((table) => table.species === species);
  const seasons = seasonTablesOf(pair, windows, policy, areas, standing);
  const isOffered = (cell: Cell) => offered(cell, places, windows, seasons);
  const tested = pair.filter((cell) => cell.tested > 0 && isOffered(cell));
  const linked = tested.filter(({ assay, part }) => assay === 'whole plant' && part?.of !== 'active');
  const table = linkTable(linked, { places, windows, openSeason, seasons });
  const primary = Uint8Array.from(linked, (cell) => (isPrimary(cell, policy) ? 1 : 0));
  const pairText = `${species}|${group}`;
  const settled = input.settled?.get(pairText) ?? new Map();
  input.settled?.set(pairText, settled);
  const withheld = withholdPair(highs, table, primary, input, settled);
  const hidden = new Set<Cell>(linked.filter((_, i) => withheld[i] === 1));
  // Soil-applied and molecular results stand in no sum with others: the primary rule is enough for them.
  for (const cell of tested)
    if (cell.assay !== 'whole plant' && hides(cell, policy, standing)) hidden.add(cell);
  for (const cell of hiddenActives(tested, hidden, input)) hidden.add(cell);
  const receipts = receiptsOf(pair, windows, (cell) => cell.tested > 0 && !hidden.has(cell));
  const claims = !input.silent?.has(pairText);
  const statuses = statusesOf(highs, {
    ...{ table, primary, withheld, places, areas, windows, policy, unionOf, claims },
    isBound: table.cells.some((cell) => standing.lookOf(cell) !== null),
  });
  const tables = (['district', 'county'] as const).flatMap((placeKind) =>
    [...seasons[placeKind]].map((first): SeasonTable => ({ placeKind, species, group, first })),
  );
  return {
    tables,
    cells: tested.map((cell) =>
      release(cell, hidden.has(cell), receipts.has(cell) && standing.mayShowReceipt(cell), openSeason),
    ),
    statuses: statuses.map((entry): ReleasedStatus => ({ ...entry, species, group })),
    figures: figuresOf(tested, hidden, policy),
  };
}

function figuresOf(cells: readonly Cell[], hidden: ReadonlySet<Cell>, policy: Policy): GateFigures {
  const { species, group } = cells[0]!;
  const primary = cells.filter((cell) => hidden.has(cell) && isPrimary(cell, policy)).length;
  return { species, group, tested: cells.length, primary, complementary: hidden.size - primary };
}

/** What is withheld by active, once it is known what is withheld of the wholes. */
function hiddenActives(
  tested: readonly Cell[],
  hidden: ReadonlySet<Cell>,
  { policy, standing = NOTHING_STANDS, insiders = [] }: GateInput,
): Cell[] {
  const wholes = new Map(tested.filter(isWhole).map((cell) => [cellKeyText(cell), cell]));
  const places = new Map<string, Cell[]>();
  for (const cell of tested) {
    if (cell.part?.of !== 'active') continue;
    const { part: _, ...whole } = cell;
    const key = cellKeyText(whole);
    places.set(key, [...(places.get(key) ?? []), cell]);
  }
  const asked = new Set(insiders.map(({ cell }) => cell));
  return [...places].flatMap(([key, actives]) => {
    const whole = wholes.get(key)!;
    const mustHide = (cell: Cell) => hides(cell, policy, standing) || asked.has(cellKeyText(cell));
    const mayHide = (cell: Cell) => standing.lookOf(cell) !== 'shown';
    return [...withholdActives(actives, hidden.has(whole) ? null : whole, mustHide, mayHide)];
  });
}

/** Cells that stand in no sum: the primary rule, and what earlier releases withheld. */
function hides(cell: Cell, policy: Policy, standing: Standing): boolean {
  return isPrimary(cell, policy) || standing.lookOf(cell) === 'withheld';
}

function withholdPair(
  highs: Highs,
  table: LinkedTable,
  primary: Uint8Array,
  { policy, standing = NOTHING_STANDS, insiders = [] }: GateInput,
  known?: SettledBlocks,
): Uint8Array {
  const { species, group } = table.cells[0] ?? { species: '', group: 0 };
  const index = new Map(table.cells.map((cell, i) => [cellKeyText(cell), i]));
  const ties: Ties = {
    standing: table.cells.map((cell) => standing.lookOf(cell)),
    earlier: table.cells.map((cell) => standing.earlierOf(cell)),
    senders: insiders
      .filter((breach) => breach.species === species && breach.group === group)
      .map((breach) => ({ ...breach, whole: wholeText(breach.cell) }))
      .filter(({ whole }) => index.has(whole))
      .map(({ cell, whole, quantity, own }) => ({
        cell: index.get(whole)!,
        ofPart: whole !== cell,
        quantity,
        own: new Map(
          [...own].flatMap(([key, counts]) => (index.has(key) ? [[index.get(key)!, counts]] : [])),
        ),
      })),
  };
  try {
    return withholdComplementary(highs, table, primary, policy.minimumTested, ties, known);
  } catch (error) {
    if (error instanceof UnprotectedCell) {
      const cell = cellKeyText(table.cells[error.cell]!);
      throw new PairUnprotected(species, group, `${cell}: ${error.message}`, cell);
    }
    throw error;
  }
}

/** What a sender works out by active it has from the whole: that must be left open. */
function wholeText(cell: string): string {
  return cell.split('|active|')[0]!;
}

type SeasonWindows = Record<SeasonTable['placeKind'], Set<Season>>;

/** Windows of this pair in which enough district (county) × season cells pass (a)–(c) for that table to be published. */
function seasonTablesOf(
  pair: Cell[],
  windows: Period[],
  policy: Policy,
  areas: readonly AreaTable[],
  { decided, seasonTables }: Standing,
): SeasonWindows {
  const tables: SeasonWindows = { district: new Set(), county: new Set() };
  if (policy.windowLength === 1) return tables;
  for (const window of windows) {
    if (decided.has(window.first)) continue;
    if (passes(pair, 'district', window, policy, policy.districtSeasonShare))
      tables.district.add(window.first);
    if (passes(pair, 'county', window, policy, policy.countySeasonShare)) tables.county.add(window.first);
  }
  // Counties by season beside areas, or beside districts that have none, would be two partitions of a state.
  for (const table of areas) if (joinedAreas(table).length > 0) tables.county.delete(table.first);
  const districts = pair.some(({ placeKind }) => placeKind === 'district');
  if (districts)
    for (const first of tables.county) if (!tables.district.has(first)) tables.county.delete(first);
  const { species, group } = pair[0]!;
  for (const { placeKind, first, ...table } of seasonTables)
    if (table.species === species && table.group === group) tables[placeKind].add(first);
  return tables;
}

function passes(
  pair: Cell[],
  kind: SeasonTable['placeKind'],
  window: Period,
  policy: Policy,
  share: number,
): boolean {
  const cells = pair.filter(
    ({ placeKind, period, tested, assay }) =>
      placeKind === kind &&
      assay === 'whole plant' &&
      tested > 0 &&
      period.first === period.last &&
      window.first <= period.first &&
      period.last <= window.last,
  );
  const passing = cells.filter((cell) => !isTooThin(cell, policy)).length;
  return cells.length > 0 && passing >= share * cells.length;
}

/** Districts only where they divide their state; district and county × season only where they are published. */
function offered(cell: Cell, places: Places, windows: Period[], seasons: SeasonWindows): boolean {
  const { placeKind, period } = cell;
  if (placeKind === 'region' || placeKind === 'state') return true;
  if (placeKind === 'district' && places.parentOf(cell) === undefined) return false;
  const window = windows.find(({ first, last }) => first <= period.first && period.last <= last)!;
  const isWindow = period.first === window.first && period.last === window.last;
  return isWindow || (placeKind !== 'area' && seasons[placeKind].has(window.first));
}

function receiptsOf(pair: Cell[], windows: Period[], isPublished: (cell: Cell) => boolean): Set<Cell> {
  const coarse = pair.filter(
    (cell) => isWhole(cell) && (cell.placeKind === 'region' || cell.placeKind === 'state'),
  );
  const assays = [...new Set(coarse.map(({ assay }) => assay))];
  return new Set(
    assays.flatMap((assay) => [
      ...shownReceipts(
        coarse.filter((cell) => cell.assay === assay),
        windows,
        isPublished,
      ),
    ]),
  );
}

function release(
  cell: Cell,
  isHidden: boolean,
  hasReceipt: boolean,
  openSeason: Season | null,
): ReleasedCell {
  const { placeKind, place, period, species, group, assay, design, part } = cell;
  const { tested, resistant, someSurvivors, received, testable, inconclusive } = cell;
  return {
    placeKind,
    place,
    period: { first: period.first, last: period.last },
    species,
    group,
    assay,
    design,
    ...(part && { part }),
    status: isHidden ? 'withheld' : 'published',
    counts: isHidden ? null : { tested, resistant, someSurvivors },
    receipt: hasReceipt ? { received, testable, inconclusive } : null,
    actives: isHidden || part ? [] : [...cell.actives].sort(),
    unfinished: period.last === openSeason,
  };
}

/** Cells by species × group, both in a fixed order. */
function pairsOf(cells: readonly Cell[]): Cell[][] {
  const pairs = new Map<string, Cell[]>();
  for (const cell of [...cells].sort(compareCells)) {
    const key = `${cell.species}|${cell.group}`;
    const list = pairs.get(key);
    if (list) list.push(cell);
    else pairs.set(key, [cell]);
  }
  return [...pairs.values()];
}

function checkLadder({ cells, ...question }: GateInput): void {
  const rungs = new Set(
    ladder(question).flatMap(({ placeKind, periods, assays, byDesign, by, several = false }) =>
      periods.flatMap(({ first, last }) =>
        assays.map((assay) => `${placeKind}|${first}|${last}|${assay}|${byDesign}|${by}|${several}`),
      ),
    ),
  );
  const seen = new Set<string>();
  for (const cell of cells) {
    const { placeKind, period, assay, design, part, group } = cell;
    const key = cellKeyText(cell);
    const table = `${assay}|${design !== null}|${part?.of}|${group === SEVERAL_GROUPS}`;
    if (!rungs.has(`${placeKind}|${period.first}|${period.last}|${table}`))
      throw new Error(`cell ${key} is not on the public ladder. Hand the gate the tables of ladder() only.`);
    if (seen.has(key)) throw new Error(`cell ${key} is given twice. Each cell enters once.`);
    seen.add(key);
    if (cell.tested !== cell.resistant + cell.someSurvivors + cell.susceptible)
      throw new Error(
        `cell ${key}: tested is ${cell.tested}, not the sum of its results. Build the cube again.`,
      );
  }
}
