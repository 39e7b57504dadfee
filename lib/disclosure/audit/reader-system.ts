import type { ReleasedCell, ReleasedStatus } from '../types';
import type { Terms } from './attacker';
import type { Knowledge } from './knowledge';
import type { LinearSystem, Row } from './linear-system';

/** Withheld cells that a reader cannot tell apart: they have one and the same range. */
export interface Suspect {
  cells: number[];
  /** Column of its resistant; some survivors and susceptible follow. */
  column: number;
}

/** What is said of the withheld windows of a place together. */
export interface Sentence {
  status: ReleasedStatus;
  cells: number[];
  terms: Terms;
}

export interface ReaderSystem extends LinearSystem {
  suspects: Suspect[];
  sentences: Sentence[];
}

/**
 * A reader's linear system for one pair: three unknown counts for each withheld cell (at least one tested), every sum
 * measure by measure, and the statuses. Receipts add nothing here: they are refused on withheld cells, and beside
 * published ones they only bound from above what the sums of tested already give.
 */
export function readerSystem(
  known: Knowledge,
  windows: readonly { first: number; last: number }[],
): ReaderSystem {
  const said = sentencesOf(known, windows);
  const { suspects, blocks, blocksOf, size } = columnsFor(known, said);
  const rows: Row[] = [];
  for (const { total, parts } of known.sums) {
    for (let measure = 0; measure < 3; measure++)
      rows.push(sumRow(known.cells, total, parts, measure, blocksOf));
  }
  for (const { column, least } of blocks)
    rows.push({
      columns: [column, column + 1, column + 2],
      coefficients: [1, 1, 1],
      low: least,
      high: Infinity,
    });
  const sentences = said.map(({ status, cells, shown }): Sentence => {
    const columns = cells.map((cell) => blocksOf.get(cell)![0]!);
    const confirmed = status.status === 'confirmed';
    rows.push({
      columns,
      coefficients: columns.map(() => 1),
      low: confirmed ? 1 - shown : -shown,
      high: confirmed ? Infinity : -shown,
    });
    return { status, cells, terms: columns.map((column) => [column, 1] as const) };
  });
  return {
    lower: Array(size).fill(0),
    upper: Array(size).fill(Infinity),
    rows,
    suspects,
    sentences,
  };
}

interface Said {
  status: ReleasedStatus;
  cells: number[];
  /** Resistant in the published windows of the place. */
  shown: number;
}

function sentencesOf(
  { cells, statuses }: Knowledge,
  windows: readonly { first: number; last: number }[],
): Said[] {
  const byPlace = new Map<string, number[]>();
  for (const [i, { placeKind, place, period, assay, design }] of cells.entries()) {
    const isWindow = windows.some(({ first, last }) => first === period.first && last === period.last);
    if (!isWindow || design !== null || assay !== 'whole plant') continue;
    byPlace.set(`${placeKind} ${place}`, [...(byPlace.get(`${placeKind} ${place}`) ?? []), i]);
  }
  return statuses
    .filter(({ status }) => status === 'confirmed' || status === 'none confirmed')
    .map((status) => {
      const own = byPlace.get(`${status.placeKind} ${status.place}`) ?? [];
      const shown = own.reduce((sum, i) => sum + (cells[i]!.counts?.resistant ?? 0), 0);
      return { status, cells: own.filter((i) => cells[i]!.counts === null), shown };
    })
    .filter(
      ({ cells, shown, status }) => shown === 0 || status.status === 'none confirmed' || cells.length === 0,
    );
}

function columnsFor(known: Knowledge, said: Said[]) {
  const marks = new Map<number, string[]>();
  const mark = (cell: number, text: string) => marks.set(cell, [...(marks.get(cell) ?? []), text]);
  for (const [i, cell] of known.cells.entries()) if (cell.counts === null) marks.set(i, []);
  for (const [s, { total, parts }] of known.sums.entries()) {
    for (const i of [total, ...parts]) if (marks.has(i)) mark(i, i === total ? `total ${s}` : `part ${s}`);
  }
  for (const [s, { cells }] of said.entries()) for (const cell of cells) mark(cell, `said ${s}`);
  const classes = new Map<string, number[]>();
  for (const [cell, texts] of marks) {
    // A cell that stands in no sum is alone: nothing is known of it, and nothing makes it like another.
    const key = texts.length === 0 ? `alone ${cell}` : texts.join();
    classes.set(key, [...(classes.get(key) ?? []), cell]);
  }
  const suspects: Suspect[] = [];
  const blocks: { column: number; least: number }[] = [];
  const blocksOf = new Map<number, number[]>();
  let size = 0;
  const take = (least: number): number => {
    const column = size;
    blocks.push({ column, least });
    size += 3;
    return column;
  };
  for (const cells of classes.values()) {
    const columns = [take(1)];
    suspects.push({ cells, column: columns[0]! });
    if (cells.length > 1) columns.push(take(cells.length - 1));
    for (const cell of cells) blocksOf.set(cell, columns);
  }
  return { suspects, blocks, blocksOf, size };
}

function sumRow(
  cells: ReleasedCell[],
  total: number,
  parts: number[],
  measure: number,
  blocksOf: Map<number, number[]>,
): Row {
  const shown = (i: number) => measureOf(cells[i]!, measure);
  const columns = distinct(parts.flatMap((i) => blocksOf.get(i) ?? [])).map((column) => column + measure);
  const coefficients = columns.map(() => 1);
  const whole = blocksOf.get(total)?.[0];
  if (whole !== undefined) {
    columns.push(whole + measure);
    coefficients.push(-1);
  }
  const rest = shown(total) - parts.reduce((sum, i) => sum + shown(i), 0);
  return { columns, coefficients, low: rest, high: rest };
}

/** Published count, 0 where withheld: the unknown takes its place. */
function measureOf({ counts }: ReleasedCell, measure: number): number {
  if (counts === null) return 0;
  const { tested, resistant, someSurvivors } = counts;
  return [resistant, someSurvivors, tested - resistant - someSurvivors][measure]!;
}

function distinct(values: number[]): number[] {
  return [...new Set(values)];
}
