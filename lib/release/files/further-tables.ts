import { activeCells, cropCells, multipleCells } from '@/lib/disclosure/further';
import type { ActiveCell, CropCell, MultipleCell, ReleasedCube } from '@/lib/disclosure/types';
import type { Region } from '@/lib/geography/types';
import { COLUMNS } from '../columns';
import { placesOf } from '../table-rows';
import type { Field, Table, Value } from './field';

/**
 * The further tables of a release, each with a line for every cell in which something was screened: by crop, by active, and
 * by the number of groups that populations are resistant to.
 */
export function furtherTables(cube: Pick<ReleasedCube, 'further'>, region: Region): Table[] {
  const names = new Map(placesOf(region).map((one) => [`${one.placeKind}|${one.place}`, one.placeName]));
  const nameOf = (placeKind: string, place: string) => names.get(`${placeKind}|${place}`) ?? place;
  return [
    {
      name: 'crops',
      title: 'Populations screened by crop, in states and closed seasons',
      fields: [...fields('place', 'place_name', 'first_season', 'species', 'group'), CROP, ...COUNTS],
      key: ['place', 'first_season', 'species', 'group', 'crop'],
      rows: cropCells(cube).map((cell) => [
        ...[cell.state, nameOf('state', cell.state), cell.season, cell.species, cell.group, cell.crop],
        ...countsOf(cell),
      ]),
    },
    {
      name: 'actives',
      title: 'Populations screened by active, in districts and windows',
      fields: [
        ...fields('place', 'place_name', 'first_season', 'last_season', 'species', 'group'),
        ...[ACTIVE, ...COUNTS],
      ],
      key: ['place', 'first_season', 'last_season', 'species', 'group', 'active'],
      rows: activeCells(cube).map((cell) => [
        ...[cell.district, nameOf('district', cell.district), cell.period.first, cell.period.last],
        ...[cell.species, cell.group, cell.active, ...countsOf(cell)],
      ]),
    },
    {
      name: 'multiple-resistance',
      title: 'Populations screened against two groups or more, by the number of groups they are resistant to',
      fields: [
        ...fields('place_kind', 'place', 'place_name', 'first_season', 'last_season', 'species', 'status'),
        ...MULTIPLE,
      ],
      key: ['place_kind', 'place', 'first_season', 'last_season', 'species'],
      rows: multipleCells(cube).map((cell) => [
        ...[cell.placeKind, cell.place, nameOf(cell.placeKind, cell.place), cell.period.first],
        ...[cell.period.last, cell.species, ...multipleCounts(cell)],
      ]),
    },
  ];
}

function fields(...names: string[]): Field[] {
  return names.map((name) => {
    const { value: _, ...field } = COLUMNS.find((column) => column.name === name)!;
    return field;
  });
}

const CROP: Field = {
  name: 'crop',
  meaning:
    'common name of the crop in the field; “other or not stated” where the sheet named none or one that is not in the list',
  type: 'string',
  required: true,
};

const ACTIVE: Field = {
  name: 'active',
  meaning:
    'active, by ISO common name (those of a mixture joined by +); a population that was tested on two actives counts in both; “not named” where the sheet named the group alone',
  type: 'string',
  required: true,
};

const STATUS: Field = { ...fields('status')[0]!, values: ['published', 'withheld'] };
const COUNTS: readonly Field[] = [STATUS, ...fields('tested', 'resistant', 'some_survivors')];

const MULTIPLE: readonly Field[] = [
  {
    name: 'tested',
    meaning:
      'populations screened against two groups or more, of results that stand in published cells only; empty where withheld',
    type: 'integer',
    minimum: 0,
  },
  ...(
    [
      ['resistant_to_none', 'to no group that it was screened against'],
      ['resistant_to_one', 'to one group'],
      ['resistant_to_several', 'to two groups or more'],
    ] as const
  ).map(
    ([name, words]): Field => ({
      name,
      meaning: `of these resistant ${words}; empty where withheld`,
      type: 'integer',
      minimum: 0,
    }),
  ),
];

function countsOf({ status, counts }: CropCell | ActiveCell): Value[] {
  return [status, counts?.tested ?? null, counts?.resistant ?? null, counts?.someSurvivors ?? null];
}

function multipleCounts({ status, counts }: MultipleCell): Value[] {
  const { tested = null, none = null, one = null, several = null } = counts ?? {};
  return [status, tested, none, one, several];
}
