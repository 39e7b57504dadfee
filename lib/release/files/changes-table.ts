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
    fields: [...KEY, ...CHANGE_FIELDS],
    key: [...CELL_KEY, 'column'],
    rows: changes.map((change) => [
      ...KEY.map((field) => cellValue(field, change.cell)),
      ...changeValues(change),
    ]),
  };
}

/** The values of `CHANGE_FIELDS`. */
export function changeValues({ change, column, before, after }: CellChange): Value[] {
  return [change, column, text(before), text(after)];
}

const KEY = COLUMNS.filter(({ name }) => CELL_KEY.includes(name));

export const CHANGE_FIELDS: readonly Field[] = [
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
