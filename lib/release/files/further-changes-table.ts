import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import { furtherTableOf } from '@/lib/disclosure/further';
import type { CellChange } from '../cell-changes';
import { COLUMNS } from '../columns';
import type { ReleaseBefore } from '../types';
import { CHANGE_FIELDS, changeValues } from './changes-table';
import type { Field, Table } from './field';

/** What changed in the further tables since the release before, a line for each column of a cell. */
export function furtherChangesTable(changes: readonly CellChange[], before: ReleaseBefore | null): Table {
  return {
    name: 'changes-further',
    title: before
      ? `What changed by crop, by active and in multiple resistance since release ${before.number} of ${before.head.date}`
      : 'What changed by crop, by active and in multiple resistance since the release before: there is none, so the table is empty',
    fields: [...KEY, ...CHANGE_FIELDS],
    key: [...KEY.map(({ name }) => name), 'column'],
    rows: changes.map((change) => {
      const { placeKind, place, period, species, group, part } = change.cell;
      const isSeveral = group === SEVERAL_GROUPS;
      const [kind, column, ...values] = changeValues(change);
      return [
        ...[TABLES[furtherTableOf(change.cell)!], placeKind, place, period.first, period.last, species],
        ...[isSeveral ? null : group, part?.name ?? null],
        ...[kind!, (isSeveral && SEVERAL_COLUMNS[change.column]) || column!, ...values],
      ];
    }),
  };
}

const TABLES = { crop: 'crops', active: 'actives', 'several groups': 'multiple-resistance' } as const;

/** How multiple resistance names what stands in the places of resistant and some survivors. */
const SEVERAL_COLUMNS: Readonly<Record<string, string>> = {
  resistant: 'resistant_to_several',
  some_survivors: 'resistant_to_one',
};

const KEY: readonly Field[] = [
  {
    name: 'table',
    meaning: 'the table in which the cell stands',
    type: 'string',
    values: Object.values(TABLES),
    required: true,
  },
  ...COLUMNS.filter(({ name }) =>
    ['place_kind', 'place', 'first_season', 'last_season', 'species'].includes(name),
  ).map(({ value: _, ...field }) => field),
  {
    name: 'group',
    meaning: 'herbicide site-of-action group; empty in multiple resistance',
    type: 'integer',
    minimum: 0,
  },
  { name: 'part', meaning: 'the crop or active; empty in multiple resistance', type: 'string' },
];
