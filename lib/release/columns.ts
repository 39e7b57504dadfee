import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { species } from '@/lib/vocabulary/species';
import { ASSAYS, DESIGNS } from '@/lib/vocabulary/terms';
import type { Field } from './files/field';
import type { TableRow } from './table-rows';

export interface Column extends Field {
  value: (
    row: TableRow,
    release: { number: number; simulated: boolean; caseDefinition: string },
  ) => string | number | null;
}

/** The columns of the public table, in order. Code book, schemas and typed files are made from the same list. */
export const COLUMNS: readonly Column[] = [
  {
    name: 'release',
    meaning: 'number of the release this line belongs to',
    type: 'integer',
    required: true,
    minimum: 1,
    value: (_, { number }) => number,
  },
  {
    name: 'simulated',
    meaning: 'yes where the data are invented for a demonstration',
    type: 'yes or no',
    required: true,
    value: (_, { simulated }) => (simulated ? 'yes' : 'no'),
  },
  {
    name: 'place_kind',
    meaning: 'region, state, district, county, or area (adjoining counties counted together in a window)',
    type: 'string',
    values: ['region', 'state', 'district', 'area', 'county'],
    required: true,
    value: (row) => row.placeKind,
  },
  {
    name: 'place',
    meaning:
      'region; postal abbreviation; district code; five-digit FIPS code of the county (a text: keep the leading zero); the FIPS codes of an area’s counties joined by +',
    type: 'string',
    required: true,
    value: (row) => row.place,
  },
  {
    name: 'place_name',
    meaning: 'name of the place',
    type: 'string',
    required: true,
    value: (row) => row.placeName,
  },
  {
    name: 'state',
    meaning: 'postal abbreviation of the state, empty for the region',
    type: 'string',
    value: (row) => row.state,
  },
  {
    name: 'district',
    meaning: 'name of the district a county or area belongs to',
    type: 'string',
    value: (row) => row.district,
  },
  {
    name: 'first_season',
    meaning: 'first season of the period (the year the seed was collected)',
    type: 'integer',
    required: true,
    value: (row) => row.period.first,
  },
  {
    name: 'last_season',
    meaning: 'last season of the period; the same as the first for a single season',
    type: 'integer',
    required: true,
    value: (row) => row.period.last,
  },
  {
    name: 'unfinished',
    meaning:
      'yes for the season still under way: its counts will grow and are not comparable with a closed season',
    type: 'yes or no',
    required: true,
    value: (row) => (row.unfinished ? 'yes' : 'no'),
  },
  {
    name: 'species',
    meaning: 'EPPO code of the species',
    type: 'string',
    required: true,
    value: (row) => row.pair.species,
  },
  {
    name: 'species_name',
    meaning: 'scientific name',
    type: 'string',
    value: (row) => species(row.pair.species)?.scientificName ?? '',
  },
  {
    name: 'group',
    meaning: 'herbicide site-of-action group, harmonised number',
    type: 'integer',
    required: true,
    minimum: 0,
    value: (row) => row.pair.group,
  },
  {
    name: 'assay',
    meaning: 'whole plant, soil-applied or molecular; never pooled',
    type: 'string',
    values: ASSAYS,
    required: true,
    value: (row) => row.assay,
  },
  {
    name: 'design',
    meaning: 'how fields were chosen: submitted, random, follow-up or roadside; all = all designs together',
    type: 'string',
    values: ['all', ...DESIGNS],
    required: true,
    value: (row) => row.design ?? 'all',
  },
  {
    name: 'status',
    meaning:
      'published; withheld (something was screened, counts not shown); not screened (nothing was screened)',
    type: 'string',
    values: ['published', 'withheld', 'not screened'],
    required: true,
    value: (row) => row.status,
  },
  {
    name: 'tested',
    meaning: 'populations screened with a result; 0 where not screened, empty where withheld',
    type: 'integer',
    minimum: 0,
    value: (row) => (row.status === 'not screened' ? 0 : (row.cell?.counts?.tested ?? null)),
  },
  {
    name: 'resistant',
    meaning: 'populations resistant by the case definition; empty unless published',
    type: 'integer',
    minimum: 0,
    value: (row) => row.cell?.counts?.resistant ?? null,
  },
  {
    name: 'some_survivors',
    meaning: 'populations with survivors, but fewer than the case definition asks; empty unless published',
    type: 'integer',
    minimum: 0,
    value: (row) => row.cell?.counts?.someSurvivors ?? null,
  },
  {
    name: 'share',
    meaning: 'resistant / tested, 0–1; empty unless published',
    type: 'number',
    minimum: 0,
    maximum: 1,
    value: (row) => share(row),
  },
  {
    name: 'share_low',
    meaning: 'lower end of the Wilson 95 % interval of the share',
    type: 'number',
    minimum: 0,
    maximum: 1,
    value: (row) => interval(row)?.low ?? null,
  },
  {
    name: 'share_high',
    meaning: 'upper end of the Wilson 95 % interval of the share',
    type: 'number',
    minimum: 0,
    maximum: 1,
    value: (row) => interval(row)?.high ?? null,
  },
  {
    name: 'received',
    meaning: 'populations received (region and state only)',
    type: 'integer',
    minimum: 0,
    value: (row) => row.cell?.receipt?.received ?? null,
  },
  {
    name: 'testable',
    meaning: 'populations with viable seed (region and state only)',
    type: 'integer',
    minimum: 0,
    value: (row) => row.cell?.receipt?.testable ?? null,
  },
  {
    name: 'inconclusive',
    meaning: 'testable populations without a clear result (region and state only)',
    type: 'integer',
    minimum: 0,
    value: (row) => row.cell?.receipt?.inconclusive ?? null,
  },
  {
    name: 'actives_tested',
    meaning: 'actives that were tested, by ISO common name, separated by ;',
    type: 'string',
    value: (row) => row.cell?.actives.join(';') ?? '',
  },
  {
    name: 'case_definition',
    meaning: 'version of the case definition',
    type: 'string',
    required: true,
    value: (_, { caseDefinition }) => caseDefinition,
  },
];

/** Names of the columns that tell a cell's lines apart. */
export const CELL_KEY: readonly string[] = [
  ...['place_kind', 'place', 'first_season', 'last_season', 'species', 'group', 'assay', 'design'],
];

function share({ cell }: TableRow): number | null {
  return cell?.counts ? rounded(cell.counts.resistant / cell.counts.tested) : null;
}

function interval({ cell }: TableRow): { low: number; high: number } | null {
  if (!cell?.counts) return null;
  const { low, high } = wilsonInterval(cell.counts.resistant, cell.counts.tested);
  return { low: rounded(low), high: rounded(high) };
}

/** Six decimals: enough to compute with, the same on every machine. */
function rounded(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
