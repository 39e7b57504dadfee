import type { Region } from '@/lib/geography/types';
import type { Field, Table } from './field';

/** Which counties touch, each pair in both directions: what the findings take as neighbours. */
export function neighboursTable({ counties, neighbours }: Region): Table {
  return {
    name: 'neighbours',
    title: 'Counties that touch',
    fields: FIELDS,
    key: ['county', 'neighbour'],
    rows: neighbours.flatMap((others, i) => others.map((j) => [counties[i]!.fips, counties[j]!.fips])),
  };
}

const FIELDS: readonly Field[] = [
  { name: 'county', meaning: 'five-digit FIPS code (a text)', type: 'string', required: true },
  {
    name: 'neighbour',
    meaning:
      'FIPS code of a county that shares a part of its outline, not only a corner; counties across the region’s line are left out',
    type: 'string',
    required: true,
  },
];
