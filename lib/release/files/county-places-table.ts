import { areaOfCounty, findAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { ReleaseDraft } from '../types';
import type { Field, Table } from './field';

/** Where each county is counted in each window of each species: as itself, or in an area with others. */
export function countyPlacesTable({ head }: Pick<ReleaseDraft, 'head'>, { counties }: Region): Table {
  const species = [...new Set(head.pairs.map((pair) => pair.species))];
  return {
    name: 'county-places',
    title: 'The place in which each county is counted, by species and window',
    fields: FIELDS,
    key: ['species', 'first_season', 'last_season', 'county'],
    rows: species.flatMap((code) =>
      head.windows.flatMap(({ first, last }) => {
        const areaOf = areaOfCounty(findAreas(head.areas, code, first));
        return counties.map(({ fips, fullName, state, district }) => {
          const area = areaOf.get(fips);
          return [code, first, last, fips, fullName, state, district, area ? 'area' : 'county', area ?? fips];
        });
      }),
    ),
  };
}

const FIELDS: readonly Field[] = [
  { name: 'species', meaning: 'EPPO code of the species', type: 'string', required: true },
  { name: 'first_season', meaning: 'first season of the window', type: 'integer', required: true },
  { name: 'last_season', meaning: 'last season of the window', type: 'integer', required: true },
  { name: 'county', meaning: 'five-digit FIPS code (a text)', type: 'string', required: true },
  { name: 'county_name', meaning: 'name of the county', type: 'string', required: true },
  { name: 'state', meaning: 'postal abbreviation of the state', type: 'string', required: true },
  { name: 'district', meaning: 'code of its district, empty where it has none', type: 'string' },
  {
    name: 'place_kind',
    meaning: 'area where the county is counted together with others, else county',
    type: 'string',
    values: ['county', 'area'],
    required: true,
  },
  {
    name: 'place',
    meaning: 'key of that place in the cells: FIPS code, or those of the area’s counties joined by +',
    type: 'string',
    required: true,
  },
];
