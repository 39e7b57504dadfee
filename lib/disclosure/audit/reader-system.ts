import type { Results } from '../types';
import type { Terms } from './attacker';
import type { Joined, JoinedCover, JoinedSentence, JoinedSum } from './join';
import type { LinearSystem, Row } from './linear-system';

/** Withheld cells that a reader cannot tell apart: they have one and the same range. */
export interface Suspect {
  cells: number[];
  /** Column of its resistant; some survivors and susceptible follow. */
  column: number;
}

/** What is said of the withheld windows of a place together. */
export interface Sentence extends JoinedSentence {
  terms: Terms;
  /** Of those cells that another release shows. */
  known: number;
}

export interface ReaderSystem extends LinearSystem {
  suspects: Suspect[];
  sentences: Sentence[];
}

/**
 * A reader's linear system for one pair over all releases: three unknown counts for each withheld cell (at least one
 * tested in each release that withholds it, none negative in any), every sum measure by measure, what holds between a cell and
 * its actives, the statuses, and the growth of seasons under way. Receipts add nothing here: they are refused on withheld cells, and beside published ones they only bound
 * from above what the sums of tested already give.
 *
 * @param apart true: no cells are taken together (for a reader who knows of some of them more than of others)
 */
export function readerSystem(known: Joined, apart = false): ReaderSystem {
  const { suspects, blocks, blocksOf, size } = columnsFor(known, apart);
  const lower: number[] = Array(size).fill(0);
  const rows: Row[] = [];
  for (const sum of known.sums) {
    for (const measure of [0, 1, 2] as const) rows.push(sumRow(known, sum, measure, blocksOf));
  }
  for (const cover of known.covers) rows.push(...coverRows(known, cover, blocksOf));
  for (const { column, least, floor } of blocks) {
    for (const measure of [0, 1, 2] as const) lower[column + measure] = floor[measure];
    rows.push({
      columns: [column, column + 1, column + 2],
      coefficients: [1, 1, 1],
      low: least,
      high: Infinity,
    });
  }
  const sentences = known.sentences.map((said): Sentence => {
    const columns = said.cells.flatMap((cell) => blocksOf.get(cell)?.[0] ?? []);
    const shown = said.cells.reduce((sum, cell) => sum + (known.cells[cell]!.counts?.[0] ?? 0), 0);
    const high = said.status.status === 'confirmed' ? Infinity : said.low - shown;
    rows.push({ columns, coefficients: columns.map(() => 1), low: said.low - shown, high });
    return { ...said, terms: columns.map((column) => [column, 1] as const), known: shown };
  });
  for (const { earlier, later, least } of known.growths) {
    for (const measure of [0, 1, 2] as const) {
      const by = least[measure];
      if (by !== null) rows.push(growthRow(known, [earlier, later], measure, by, blocksOf));
    }
  }
  return { lower, upper: Array(size).fill(Infinity), rows, suspects, sentences };
}

interface Columns {
  column: number;
  least: number;
  floor: Results;
}

function columnsFor(known: Joined, apart: boolean) {
  const marks = new Map<number, string[]>();
  const mark = (cell: number, text: string) => marks.get(cell)?.push(text);
  for (const [i, { counts }] of known.cells.entries()) if (counts === null) marks.set(i, []);
  for (const [s, { total, parts }] of known.sums.entries()) {
    mark(total, `total ${s}`);
    for (const part of parts) mark(part, `part ${s}`);
  }
  for (const [c, { whole, parts }] of known.covers.entries()) {
    mark(whole, `covered ${c}`);
    for (const part of parts) mark(part, `covers ${c} as ${part}`);
  }
  for (const [s, { cells }] of known.sentences.entries()) for (const cell of cells) mark(cell, `said ${s}`);
  for (const [g, { earlier, later }] of known.growths.entries()) {
    for (const cell of [earlier, later]) mark(cell, `grows ${g}`);
  }
  const classes = new Map<string, number[]>();
  for (const [cell, texts] of marks) {
    const { floor, least } = known.cells[cell]!;
    // A cell that stands in no sum is alone: nothing is known of it, and nothing makes it like another.
    const key = apart || texts.length === 0 ? `alone ${cell}` : `${texts.join()} ${floor} ${least}`;
    classes.set(key, [...(classes.get(key) ?? []), cell]);
  }
  const suspects: Suspect[] = [];
  const blocks: Columns[] = [];
  const blocksOf = new Map<number, number[]>();
  let size = 0;
  const take = (cells: readonly number[]): number => {
    const { floor, least } = known.cells[cells[0]!]!;
    const all = cells.length;
    blocks.push({
      column: size,
      least: least * all,
      floor: [floor[0] * all, floor[1] * all, floor[2] * all],
    });
    size += 3;
    return size - 3;
  };
  for (const cells of classes.values()) {
    const columns = [take(cells.slice(0, 1))];
    suspects.push({ cells, column: columns[0]! });
    if (cells.length > 1) columns.push(take(cells.slice(1)));
    for (const cell of cells) blocksOf.set(cell, columns);
  }
  return { suspects, blocks, blocksOf, size };
}

function sumRow(
  { cells }: Joined,
  { total, parts, more }: JoinedSum,
  measure: 0 | 1 | 2,
  blocksOf: ReadonlyMap<number, number[]>,
): Row {
  const shown = (i: number) => cells[i]!.counts?.[measure] ?? 0;
  const columns = [...new Set(parts.flatMap((i) => blocksOf.get(i) ?? []))].map((column) => column + measure);
  const coefficients = columns.map(() => 1);
  const whole = blocksOf.get(total)?.[0];
  if (whole !== undefined) {
    columns.push(whole + measure);
    coefficients.push(-1);
  }
  const rest = more[measure] + shown(total) - parts.reduce((sum, i) => sum + shown(i), 0);
  return { columns, coefficients, low: rest, high: rest };
}

/** Measures that an active can have at most what the whole has of them together. */
const BOUNDED = [[0], [0, 1], [0, 1, 2]] as const;
/** Measures of which each population of the whole shows up in one active at least. */
const COVERED = [[0], [0, 1], [1, 2], [2]] as const;

/** What holds between a cell and its actives; nothing where all of them are known. */
function coverRows(
  { cells }: Joined,
  { whole, parts, more }: JoinedCover,
  blocksOf: ReadonlyMap<number, number[]>,
): Row[] {
  if ([whole, ...parts].every((cell) => blocksOf.get(cell) === undefined)) return [];
  const row = (
    measures: readonly (0 | 1 | 2)[],
    chosen: readonly number[],
    sense: 'at most' | 'at least',
  ) => {
    const made: Row = { columns: [], coefficients: [], low: -Infinity, high: Infinity };
    let offset = 0;
    const add = (cell: number, sign: number, since: readonly number[]) => {
      const column = blocksOf.get(cell)?.[0];
      for (const measure of measures) {
        offset += sign * since[measure]!;
        if (column === undefined) offset -= sign * cells[cell]!.counts![measure];
        else {
          made.columns.push(column + measure);
          made.coefficients.push(sign);
        }
      }
    };
    for (const p of chosen) add(parts[p]!, 1, more.parts[p]!);
    add(whole, -1, more.whole);
    if (sense === 'at most') made.high = offset;
    else made.low = offset;
    return made;
  };
  return [
    ...parts.flatMap((_, p) => BOUNDED.map((measures) => row(measures, [p], 'at most'))),
    ...COVERED.map((measures) => row(measures, [...parts.keys()], 'at least')),
  ];
}

function growthRow(
  { cells }: Joined,
  [earlier, later]: [number, number],
  measure: 0 | 1 | 2,
  by: number,
  blocksOf: ReadonlyMap<number, number[]>,
): Row {
  const row: Row = { columns: [], coefficients: [], low: by, high: Infinity };
  for (const [cell, sign] of [
    [later, 1],
    [earlier, -1],
  ] as const) {
    const column = blocksOf.get(cell)?.[0];
    if (column === undefined) {
      row.low -= sign * cells[cell]!.counts![measure];
      continue;
    }
    row.columns.push(column + measure);
    row.coefficients.push(sign);
  }
  return row;
}
