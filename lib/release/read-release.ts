import { parse } from 'csv-parse/sync';
import { z } from 'zod';
import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import { FURTHER_TABLES, type FurtherTable } from '@/lib/disclosure/further';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import type { ReleasedCell, ReleasedCube } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import { countiesOf } from '@/lib/geography/areas';
import { loadRegion } from '@/lib/geography/region';
import type { AreaTable, District, Region } from '@/lib/geography/types';
import { ASSAYS, DESIGNS } from '@/lib/vocabulary/terms';
import { neighboursTable } from './files/neighbours-table';

/** What the files of a release say, read back: all that its findings follow from, and the findings that it states. */
export interface ReadRelease {
  number: number;
  programme: string;
  date: string;
  tests: { seed: number; permutations: number };
  speciesNames: Readonly<Record<string, string>>;
  region: Region;
  cube: ReleasedCube;
  findings: Finding[];
}

/** Files of a release that contradict each other or the promises of a release. */
export class DamagedRelease extends Error {
  override readonly name = 'DamagedRelease';
}

/**
 * Reads a release back from its own files: cells, places of counties, outlines (for the districts), neighbours, policy
 * and findings. Counties are those of the atlas, by FIPS code.
 *
 * @param textOf the text of the one file whose name ends so
 * @throws DamagedRelease for a file that cannot be read so, a withheld cell with counts, a published one without, a cell
 *   given twice, or neighbours that are not those of the outlines
 */
export function readRelease(textOf: (end: string) => string): ReadRelease {
  const found = readJson('findings.json', FINDINGS, textOf);
  const { policy, windows, seasonTables, furtherTables } = readJson('policy.json', POLICY, textOf);
  const lines = readTable('cells.csv', textOf);
  const region = regionOf(found.region, readJson('places.geojson', PLACES, textOf).features);
  refuseOtherNeighbours(region, readTable('neighbours.csv', textOf));
  const seasons = lines.filter((line) => line.first_season === line.last_season);
  const seasonsThat = (unfinished: string) =>
    [
      ...new Set(
        seasons.filter((line) => line.unfinished === unfinished).map((line) => Number(line.first_season)),
      ),
    ].sort((a, b) => a - b);
  const closedSeasons = seasonsThat('no');
  const cube = checked('cells.csv', () =>
    releasedCubeFromStore({
      ...{ policy, windows, seasonTables, closedSeasons },
      firstSeason: closedSeasons[0] ?? 0,
      openSeason: seasonsThat('yes')[0] ?? null,
      areas: areasOf(readTable('county-places.csv', textOf)),
      cells: lines.flatMap((line, i) => cellOf(line, i + 2)),
      furtherTables,
      further: furtherOf(furtherTables, textOf),
      statuses: [],
    }),
  );
  const { release: number, programme, date, tests, speciesNames } = found;
  return {
    number,
    programme,
    date,
    tests,
    speciesNames,
    region,
    cube,
    findings: found.findings as unknown[] as Finding[],
  };
}

const WHOLE = z.number().int();
const WINDOW = z.object({ first: WHOLE, last: WHOLE });

const FINDINGS = z.object({
  release: WHOLE,
  programme: z.string(),
  region: z.string(),
  date: z.string(),
  tests: z.object(
    { seed: WHOLE, permutations: WHOLE.min(1) },
    'seed and permutations are not stated, as in releases before they were',
  ),
  speciesNames: z.record(z.string(), z.string()),
  findings: z.array(z.looseObject({ kind: z.string(), species: z.string(), group: WHOLE })),
});

const POLICY = z.object({
  policy: z.object({
    version: z.string(),
    minimumTested: z.number(),
    minimumOperations: z.number(),
    unanimousOperations: z.number(),
    windowLength: z.number(),
    countySeasonShare: z.number(),
    districtSeasonShare: z.number(),
  }),
  windows: z.array(WINDOW),
  seasonTables: z.array(
    z.object({ placeKind: z.enum(['district', 'county']), species: z.string(), group: WHOLE, first: WHOLE }),
  ),
  // Releases from before there were any do not name them.
  furtherTables: z.array(z.enum(FURTHER_TABLES)).default([]),
});

const PLACES = z.object({
  features: z.array(
    z.object({
      properties: z.object({
        place_kind: z.string(),
        place: z.string(),
        place_name: z.string(),
        state: z.string().nullable(),
        district: z.string().nullable(),
      }),
    }),
  ),
});

function readJson<T>(end: string, shape: z.ZodType<T>, textOf: (end: string) => string): T {
  const value = checked(end, () => JSON.parse(textOf(end)) as unknown);
  const read = shape.safeParse(value);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new DamagedRelease(`${end}: ${issue!.path.join('.')}: ${issue!.message}`);
}

type Line = Record<string, string>;

function readTable(end: string, textOf: (end: string) => string): Line[] {
  return checked(end, () => parse(textOf(end), { columns: true }) as Line[]);
}

function checked<T>(end: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof DamagedRelease) throw error;
    throw new DamagedRelease(`${end}: ${(error as Error).message}`);
  }
}

function regionOf(name: string, features: z.infer<typeof PLACES>['features']): Region {
  const places = features.map(({ properties }) => properties);
  const of = (kind: string) => places.filter(({ place_kind }) => place_kind === kind);
  const districts = of('district').map(
    ({ place, place_name, state }): District => ({
      ...{ code: place, name: place_name, state: state ?? '' },
      counties: of('county')
        .filter((county) => county.state === state && county.district === place_name)
        .map((county) => county.place),
    }),
  );
  return checked('places.geojson', () =>
    loadRegion({ name, states: of('state').map(({ place }) => place), districts }),
  );
}

function refuseOtherNeighbours(region: Region, lines: readonly Line[]): void {
  const told = new Set(lines.map(({ county, neighbour }) => `${county} ${neighbour}`));
  const known = new Set(neighboursTable(region).rows.map((row) => row.join(' ')));
  const other = [...told].find((pair) => !known.has(pair)) ?? [...known].find((pair) => !told.has(pair));
  if (other)
    throw new DamagedRelease(
      `neighbours.csv: ${other}: ${told.has(other) ? 'these counties do not touch' : 'is missing'}.`,
    );
}

/** Only counties that are counted together: one by itself needs no area. */
function areasOf(lines: readonly Line[]): AreaTable[] {
  const tables = new Map<string, { species: string; first: number; keys: Set<string> }>();
  for (const { species, first_season: first, place_kind: kind, place } of lines) {
    const table = tables.get(`${species}|${first}`) ?? {
      species: species!,
      first: Number(first),
      keys: new Set(),
    };
    tables.set(`${species}|${first}`, table);
    if (kind === 'area') table.keys.add(place!);
  }
  return [...tables.values()].map(({ species, first, keys }) => ({
    ...{ species, first },
    areas: [...keys].map(countiesOf),
  }));
}

/** The cells of the further tables that the release says it has. */
function furtherOf(tables: readonly FurtherTable[], textOf: (end: string) => string): ReleasedCell[] {
  const cellsIn = (
    file: string,
    wholeOf: (line: Line) => Line,
    furtherOf: (line: Line) => Partial<ReleasedCell>,
  ) =>
    readTable(file, textOf).flatMap((line, i) =>
      cellOf({ ...BLANK, ...line, ...wholeOf(line) }, i + 2, file).map((cell) => ({
        ...cell,
        ...furtherOf(line),
      })),
    );
  const read: Record<FurtherTable, () => ReleasedCell[]> = {
    crop: () =>
      cellsIn(
        'crops.csv',
        ({ first_season: season }) => ({ place_kind: 'state', last_season: season! }),
        ({ crop }) => ({ part: { of: 'crop', name: crop! } }),
      ),
    active: () =>
      cellsIn(
        'actives.csv',
        () => ({ place_kind: 'district' }),
        ({ active }) => ({ part: { of: 'active', name: active! } }),
      ),
    'several groups': () =>
      cellsIn(
        'multiple-resistance.csv',
        (line) => ({
          ...{ group: '0', resistant: line.resistant_to_several!, some_survivors: line.resistant_to_one! },
        }),
        () => ({ group: SEVERAL_GROUPS }),
      ),
  };
  return tables.flatMap((table) => read[table]());
}

/** What the further tables do not tell apart. */
const BLANK: Line = {
  ...{ assay: 'whole plant', design: 'all', unfinished: 'no', actives_tested: '' },
  ...{ received: '', testable: '', inconclusive: '' },
};

/** A line of the table as a cell; none where nothing was screened. */
function cellOf(line: Line, number: number, file = 'cells.csv'): ReleasedCell[] {
  if (line.status === 'not screened') return [];
  const fault = (column: string): never => {
    throw new DamagedRelease(`${file}, line ${number}: ${column} cannot be “${line[column]}”.`);
  };
  const whole = (column: string) =>
    /^\d{1,9}$/.test(line[column] ?? '') ? Number(line[column]) : fault(column);
  const oneOf = <T extends string>(column: string, values: readonly T[]): T =>
    values.find((value) => value === line[column]) ?? fault(column);
  const group = (columns: readonly string[]) =>
    columns.every((column) => line[column] === '') ? null : columns.map(whole);
  const counts = group(['tested', 'resistant', 'some_survivors']);
  const receipt = group(['received', 'testable', 'inconclusive']);
  return [
    {
      placeKind: oneOf('place_kind', ['region', 'state', 'district', 'area', 'county']),
      place: line.place!,
      period: { first: whole('first_season'), last: whole('last_season') },
      species: line.species!,
      group: whole('group'),
      assay: oneOf('assay', ASSAYS),
      design: line.design === 'all' ? null : oneOf('design', DESIGNS),
      status: oneOf('status', ['published', 'withheld']),
      counts: counts && { tested: counts[0]!, resistant: counts[1]!, someSurvivors: counts[2]! },
      receipt: receipt && { received: receipt[0]!, testable: receipt[1]!, inconclusive: receipt[2]! },
      actives: line.actives_tested === '' ? [] : line.actives_tested!.split(';'),
      unfinished: oneOf('unfinished', ['yes', 'no']) === 'yes',
    },
  ];
}
