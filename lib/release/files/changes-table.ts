import { type CellChange, cellValue } from '../cell-changes';
import { CELL_KEY, COLUMNS } from '../columns';
import type { ReleaseBefore } from '../types';
import type { Field, Table, Value } from './field';

/** What changed since the release before, a line for each column of a cell; a first release has no line. */
export function changesTable(changes: readonly CellChange[], before: ReleaseBefore | null): Table {
  return {
    name: 'changes',
    title: before
      ? `What changed since release ${before.number} of ${before.head.date}`
      : 'What changed since the release before: there is none, so the table is empty',
    fields: [...KEY, ...FIELDS],
    key: [...CELL_KEY, 'column'],
    rows: changes.map(({ cell, change, column, before: was, after: is }) => [
      ...KEY.map((field) => cellValue(field, cell)),
      ...[change, column, text(was), text(is)],
    ]),
  };
}

const KEY = COLUMNS.filter(({ name }) => CELL_KEY.includes(name));

const FIELDS: readonly Field[] = [
  {
    name: 'change',
    meaning:
      'changed; appeared (a cell in which nothing was screened in the release before, or whose period it did not hold); disappeared',
    type: 'string',
    values: ['appeared', 'disappeared', 'changed'],
    required: true,
  },
  {
    name: 'column',
    meaning:
      'column of the cells that says something else; of a cell that appeared or disappeared its status',
    type: 'string',
    required: true,
  },
  {
    name: 'before',
    meaning: 'what it said in the release before; empty where it was withheld or not there',
    type: 'string',
  },
  {
    name: 'after',
    meaning: 'what it says in this release; empty where it is withheld or not there',
    type: 'string',
  },
];

function text(value: Value): Value {
  return value === null ? null : String(value);
}
