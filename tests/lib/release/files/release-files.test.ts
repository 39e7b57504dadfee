import { createHash } from 'node:crypto';
import { unzipSync } from 'fflate';
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { type ReleaseFile, releaseFiles } from '@/lib/release/files';
import type { Field } from '@/lib/release/files/field';
import { LICENCES, NO_LICENCE } from '@/lib/release/files/licence';
import { purposeOf } from '@/lib/release/files/purposes';
import type { ReleaseBefore, ReleaseDraft } from '@/lib/release/types';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { inventedRegion, inventedRelease } from '../../../app/invented-release';
import { type Line, linesOf, named, readCsv, readDataPackage, readParquet, readWorksheets } from './formats';

// Invented: a release of four states; its outlines and names of counties are real.
const region = inventedRegion();
const draft = withCrops(inventedRelease().draft);
const before = releaseBefore(draft);
let files: ReleaseFile[];
let cells: Line[];

beforeAll(async () => {
  files = await releaseFiles(draft, 3, region, { before });
  cells = readCsv(named(files, '-cells.csv'));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllEnvs();
});

const json = (end: string) => JSON.parse(named(files, end).bytes.toString('utf8'));
const text = (end: string) => named(files, end).bytes.toString('utf8');
const kinds = (lines: readonly Line[]) => ({
  withheld: lines.filter(({ status }) => status === 'withheld'),
  unscreened: lines.filter(({ status }) => status === 'not screened'),
  zero: lines.filter(({ status, resistant }) => status === 'published' && resistant === '0'),
});

/** The law of every table: three things that a reader must be able to tell apart. */
function expectThreeKinds(lines: readonly Line[]): void {
  const { withheld, unscreened, zero } = kinds(lines);
  for (const list of [withheld, unscreened, zero]) expect(list.length).toBeGreaterThan(0);
  for (const line of withheld)
    for (const name of COUNTS) expect(line[name], `${name} of a withheld cell`).toBe('');
  for (const line of unscreened) expect(line).toMatchObject({ tested: '0', resistant: '', share: '' });
  for (const line of zero) expect(line).toMatchObject({ resistant: '0', share: '0' });
  for (const { tested } of zero) expect(Number(tested)).toBeGreaterThan(0);
}
const COUNTS = [
  ...['tested', 'resistant', 'some_survivors', 'share', 'share_low', 'share_high'],
  ...['received', 'testable', 'inconclusive', 'actives_tested'],
];

describe('the files of a release', () => {
  it('are the same bytes on another day and in another time zone', async () => {
    vi.stubEnv('TZ', 'Pacific/Kiritimati');
    vi.useFakeTimers({ now: new Date('2031-07-01T23:30:00Z'), toFake: ['Date'] });
    const again = await releaseFiles(draft, 3, region, { before });
    expect(again.map(({ name, sha256 }) => [name, sha256])).toEqual(
      files.map(({ name, sha256 }) => [name, sha256]),
    );
  });

  it('have a name of their own and a purpose, and say that the data are simulated', async () => {
    expect(new Set(files.map(({ name }) => name)).size).toBe(files.length);
    for (const { name } of files) expect(purposeOf(name), name).not.toBeNull();
    for (const { name } of files)
      if (!/^(datapackage\.json|CITATION\.cff|README\.md|SHA256SUMS)$/.test(name))
        expect(name).toContain('-simulated');
    for (const end of ['datapackage.json', 'CITATION.cff', 'README.md', '-catalogue.jsonld', '.geojson'])
      expect(text(end)).toContain(SIMULATED_NOTICE);
  });

  it('have sums that are right, of all but the list and the ZIP', () => {
    const sums = text('SHA256SUMS').trimEnd().split('\n');
    expect(sums).toHaveLength(files.length - 2);
    for (const line of sums) {
      const [sum, name] = line.split('  ') as [string, string];
      expect(createHash('sha256').update(named(files, name).bytes).digest('hex')).toBe(sum);
    }
  });

  it('are all in the ZIP, byte for byte, with the cautions in its README', () => {
    const packed = unzipSync(named(files, '.zip').bytes);
    const others = files.filter(({ name }) => !name.endsWith('.zip'));
    expect(Object.keys(packed)).toEqual(others.map(({ name }) => name));
    for (const { name, bytes } of others) expect(Buffer.from(packed[name]!).equals(bytes), name).toBe(true);
    for (const caution of CAUTIONS) expect(text('README.md')).toContain(caution);
  });

  it('tell the licence that the programme chose, and that there is none where it chose none', async () => {
    const under = async (licence: string | null) =>
      releaseFiles({ ...draft, head: { ...draft.head, licence } }, 3, region);
    const told = (all: readonly ReleaseFile[], end: string) => named(all, end).bytes.toString('utf8');
    for (const { id, url } of LICENCES) {
      const chosen = await under(id);
      expect(JSON.parse(told(chosen, 'datapackage.json')).licenses).toMatchObject([{ name: id, path: url }]);
      expect(JSON.parse(told(chosen, '-catalogue.jsonld'))['dct:license']).toEqual({ '@id': url });
      expect(JSON.parse(told(chosen, 'csv-metadata.json'))['dc:license']).toEqual({ '@id': url });
      expect(told(chosen, 'CITATION.cff')).toContain(`\nlicense: ${id}\n`);
      expect(told(chosen, 'README.md')).toContain(`(${id}): ${url}`);
      for (const { name } of chosen)
        if (/\.(json|jsonld|md|cff)$/.test(name)) expect(told(chosen, name)).not.toContain(NO_LICENCE);
    }
    const silent = await under(null);
    for (const end of [
      'datapackage.json',
      '-catalogue.jsonld',
      'csv-metadata.json',
      'CITATION.cff',
      'README.md',
    ])
      expect(told(silent, end), end).toContain(NO_LICENCE);
    expect(JSON.parse(told(silent, 'datapackage.json'))).not.toHaveProperty('licenses');
    expect(told(silent, 'CITATION.cff')).not.toContain('license:');
  });
});

describe('what changed since the release before', () => {
  it('is told line by line and in words, of the same cells', () => {
    const lines = readCsv(named(files, '-changes.csv'));
    const of = (change: string) => lines.filter((line) => line.change === change);
    const words = text('-changes.md');
    const appeared = draft.cube.cells.filter(({ period }) => period.last === 2025);
    expect(of('appeared')).toHaveLength(appeared.length);
    const hidden = appeared.filter(({ status }) => status === 'withheld').length;
    expect(words).toContain(
      `- New cells: ${appeared.length}, of which ${appeared.length - hidden} are published and ${hidden} withheld.`,
    );
    expect(of('disappeared')).toMatchObject([{ place: '99999', before: 'withheld', after: '' }]);
    const changed = of('changed');
    expect(changed.map(({ column }) => column)).toEqual(
      expect.arrayContaining(['status', 'tested', 'resistant']),
    );
    expect(words).toContain(
      '- Cells that say something else: 2. Withheld now and published before: 1. Published now and withheld before: 0.',
    );
    expect(words).toContain(`- Cells that say the same: ${draft.cube.cells.length - appeared.length - 2}.`);
    expect(words).toContain('Compared with release 2 of 2025-02-10');
    expect(words).toContain('Another case definition: version invented 1, before invented 0.');
    expect(words).toContain('- Seasons closed since: 2024.');
    expect(words).toMatch(/\| kochia \(KCHSC\) \| 9 \| \d+ \|/i);
    const grown = draft.cube.further.filter(({ part, counts }) => part?.of === 'crop' && counts).length;
    const alike = draft.cube.further.filter(({ part, counts }) => part?.of === 'crop' && !counts).length;
    expect([grown, alike].every((n) => n > 0)).toBe(true);
    expect(words).toContain(`| by crop | 0 | ${grown} | 0 | 0 | 0 | ${alike} |`);
  });

  it('holds no number of a cell on the side on which it is withheld', () => {
    const lines = readCsv(named(files, '-changes.csv'));
    const key = (line: Line) => Object.values(line).slice(0, 8).join('|');
    for (const { change, column, ...line } of lines) {
      if (change !== 'changed' || column !== 'status') continue;
      const own = lines.filter((other) => key(other) === key({ ...line }) && other.column !== 'status');
      expect(own.length).toBeGreaterThan(0);
      for (const other of own) expect(line.after === 'withheld' ? other.after : other.before).toBe('');
    }
  });

  it('is an empty table in a first release, which says so in its descriptor and in words', async () => {
    const first = await releaseFiles(draft, 1, region);
    const bytes = (end: string) => named(first, end).bytes.toString('utf8');
    expect(bytes('-changes.csv').trim().split('\r\n')).toHaveLength(1);
    expect(bytes('-changes.csv')).toMatch(/^place_kind,place,.*,change,column,before,after\r\n$/);
    expect(bytes('-changes.md')).toContain('This is the first release that stands');
    for (const end of ['datapackage.json', 'csv-metadata.json'])
      expect(bytes(end)).toContain('there is none, so the table is empty');
    for (const end of ['README.md', 'SHA256SUMS']) expect(bytes(end)).toContain('-changes.csv');
  });
});

/** Invented: of this release without its last season, with a cell that is gone, one withheld since, one that has grown. */
function releaseBefore({ head, cube }: ReleaseDraft): ReleaseBefore {
  const cells = cube.cells.filter(({ period }) => period.last !== 2025);
  const counts = { tested: 5, resistant: 1, someSurvivors: 0 };
  const shown = cells.findIndex(({ status }) => status === 'withheld');
  const grown = cells.findIndex(({ status }) => status === 'published');
  const gone: ReleasedCell = { ...cells[shown]!, placeKind: 'county', place: '99999' };
  return {
    number: 2,
    head: {
      ...head,
      date: '2025-02-10',
      closedSeasons: head.closedSeasons.slice(0, -1),
      caseDefinition: { version: 'invented 0', words: 'Invented.' },
    },
    cells: [
      ...cells.map((cell, i): ReleasedCell => {
        if (i === shown) return { ...cell, status: 'published', counts, actives: ['invented active'] };
        return i === grown ? { ...cell, counts: { ...counts, tested: cell.counts!.tested + 1 } } : cell;
      }),
      gone,
    ],
    further: cube.further.map((cell) =>
      cell.counts ? { ...cell, counts: { ...cell.counts, tested: cell.counts.tested + 1 } } : cell,
    ),
  };
}

/** Two crops of kochia and group 9 in Kansas, one of them withheld in a season. */
function withCrops({ head, cube, ...draft }: ReleaseDraft): ReleaseDraft {
  const furtherTables = ['crop', ...cube.furtherTables.filter((one) => one !== 'crop')] as const;
  const crops = head.closedSeasons.flatMap((season) =>
    ['corn', 'wheat'].map((name, k): ReleasedCell => {
      const counts = season === 2020 && k === 0 ? null : { tested: 9, resistant: 3, someSurvivors: 1 };
      return {
        ...{ placeKind: 'state', place: 'KS', period: { first: season, last: season } },
        ...{ species: 'KCHSC', group: 9, assay: 'whole plant', design: null },
        ...{ part: { of: 'crop', name }, receipt: null, actives: [], unfinished: false },
        ...{ status: counts ? 'published' : 'withheld', counts },
      };
    }),
  );
  return {
    ...draft,
    head: { ...head, furtherTables: [...furtherTables] },
    cube: { ...cube, furtherTables, further: [...cube.further, ...crops] },
  };
}

describe('withheld, not screened and zero', () => {
  it('are three things in the CSV', () => expectThreeKinds(cells));

  it('are three things in Parquet, where empty is null, read by another engine', async () => {
    const all = await readParquet(named(files, '-cells.parquet'));
    const of = (status: string) => all.filter((row) => row.status === status);
    for (const row of of('withheld')) for (const name of COUNTS) expect(row[name]).toBeNull();
    for (const row of of('not screened'))
      expect(row).toMatchObject({ tested: 0, resistant: null, share: null });
    const zeros = of('published').filter((row) => row.resistant === 0);
    for (const row of zeros) expect(row.share).toBe(0);
    const { withheld, unscreened, zero } = kinds(cells);
    expect([of('withheld'), of('not screened'), zeros].map(({ length }) => length)).toEqual(
      [withheld, unscreened, zero].map(({ length }) => length),
    );
  });

  it('are three things in the workbook', async () => {
    expectThreeKinds(linesOf((await readWorksheets(named(files, '-cells.xlsx'))).get('Cells')!));
  });

  it('are told by no outline, which has each place and no count', () => {
    const shown = new Set(cells.map((line) => `${line.place_kind}/${line.place}`));
    for (const end of ['.geojson', '.topojson'])
      for (const name of COUNTS) expect(text(end)).not.toContain(`"${name}"`);
    const ids = json('.geojson').features.map(({ id }: { id: string }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const place of shown) expect(ids).toContain(place);
  });

  it('are told by every descriptor: three states, and an empty text that is no number', () => {
    const [resource] = json('datapackage.json').resources;
    const status = resource.schema.fields.find(({ name }: Field) => name === 'status');
    expect(status.constraints.enum).toEqual(['published', 'withheld', 'not screened']);
    expect(resource.schema.missingValues).toEqual(['']);
    const [{ tableSchema }] = json('.csv-metadata.json').tables;
    for (const column of tableSchema.columns) expect(column.null).toBe('');
    for (const end of ['README.md', '-code-book.md'])
      for (const word of ['withheld', 'not screened']) expect(text(end)).toContain(word);
  });
});

describe('the counts', () => {
  it('are the same in Parquet as in the CSV, cell by cell', async () => {
    const rows = await readParquet(named(files, '-cells.parquet'));
    const said = (value: unknown) =>
      value === null ? '' : typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
    expect(
      rows.map((row) => Object.fromEntries(Object.entries(row).map(([name, value]) => [name, said(value)]))),
    ).toEqual(cells);
  });

  it('have typed columns in Parquet', async () => {
    const [row] = await readParquet(
      named(files, '-cells.parquet'),
      'select distinct typeof("release") a, typeof(simulated) b, typeof(place) c, typeof(tested) d, typeof(share) e',
    );
    expect(row).toEqual({ a: 'INTEGER', b: 'BOOLEAN', c: 'VARCHAR', d: 'INTEGER', e: 'DOUBLE' });
  });

  it('are the same in the workbook as in the CSV, cell by cell, beside the code book and the cautions', async () => {
    const sheets = await readWorksheets(named(files, '-cells.xlsx'));
    expect([...sheets.keys()]).toEqual(['Cells', 'Code book', 'Cautions']);
    expect(linesOf(sheets.get('Cells')!)).toEqual(cells);
    expect(linesOf(sheets.get('Code book')!).map(({ column }) => column)).toEqual(Object.keys(cells[0]!));
    const cautions = sheets.get('Cautions')!.flat();
    for (const caution of [...CAUTIONS, SIMULATED_NOTICE]) expect(cautions).toContain(caution);
  });

  it('never start like a formula, in the CSV and the workbook', async () => {
    const caseDefinition = { version: '=HYPERLINK("http://x")', words: 'Invented.' };
    const hostile = await releaseFiles({ ...draft, head: { ...draft.head, caseDefinition } }, 3, region);
    const neutral = `'${caseDefinition.version}`;
    for (const line of readCsv(named(hostile, '-cells.csv'))) expect(line.case_definition).toBe(neutral);
    const sheets = await readWorksheets(named(hostile, '-cells.xlsx'));
    for (const line of linesOf(sheets.get('Cells')!)) expect(line.case_definition).toBe(neutral);
    const parts = unzipSync(named(hostile, '-cells.xlsx').bytes);
    for (const [name, bytes] of Object.entries(parts))
      if (/worksheets\/.*\.xml$/.test(name)) expect(Buffer.from(bytes).toString('utf8')).not.toContain('<f>');
  });
});

describe('the descriptors', () => {
  it('list each file with its true size and sum', () => {
    const resources = json('datapackage.json').resources as { path: string; bytes: number; hash: string }[];
    expect(resources.length).toBeGreaterThan(10);
    for (const { path, bytes, hash } of resources) {
      const file = named(files, path);
      expect({ bytes, hash }).toEqual({ bytes: file.bytes.length, hash: `sha256:${file.sha256}` });
    }
    for (const one of json('-catalogue.jsonld')['dcat:distribution']) {
      const file = named(files, one['dcat:downloadURL']['@id']);
      expect(one['spdx:checksum']['spdx:checksumValue']['@value']).toBe(file.sha256);
      expect(one['dcat:byteSize']['@value']).toBe(String(file.bytes.length));
    }
  });

  it('are a Data Package by its published profile, each table by its Table Schema, to another program', async () => {
    const descriptor = json('datapackage.json');
    expect(await readDataPackage(files, descriptor)).toMatchObject({
      errors: [],
      lines: { cells: cells.length },
    });
    // It does find what is wrong: a package without resources, a limit that lines do not keep.
    const { resources, ...bare } = descriptor;
    expect((await readDataPackage(files, bare)).errors.join()).toContain('resources');
    const { schema } = resources.find(({ name }: { name: string }) => name === 'cells');
    schema.fields.find(({ name }: Field) => name === 'tested').constraints.maximum = 1;
    await expect(readDataPackage(files, descriptor)).rejects.toThrow();
  });

  it('are true of every line of every CSV: columns, types, limits, values, keys', () => {
    const resources = json('datapackage.json').resources.filter((one: { schema?: object }) => one.schema);
    expect(resources.map(({ name }: { name: string }) => name)).toEqual([
      'cells',
      'changes',
      'crops',
      'actives',
      'multiple-resistance',
      'changes-further',
      'neighbours',
      'county-places',
    ]);
    for (const { path, schema } of resources) {
      const lines = readCsv(named(files, path));
      expect(lines.length).toBeGreaterThan(0);
      expect(Object.keys(lines[0]!)).toEqual(schema.fields.map(({ name }: Field) => name));
      const wrong = lines.flatMap((line) =>
        schema.fields.filter((field: SchemaField) => !fits(field, line[field.name]!)),
      );
      expect(wrong).toEqual([]);
      const keys = lines.map((line) => schema.primaryKey.map((name: string) => line[name]).join('|'));
      expect(new Set(keys).size).toBe(lines.length);
    }
  });

  it('name the same columns and keys as “CSV on the Web”', () => {
    const resources = json('datapackage.json').resources.filter((one: { schema?: object }) => one.schema);
    const tables = json('.csv-metadata.json').tables;
    const namesOf = (fields: readonly Field[]) => fields.map(({ name }) => name);
    const told = tables.map(({ url, tableSchema }: CsvwTable) => [
      url,
      namesOf(tableSchema.columns),
      tableSchema.primaryKey,
    ]);
    expect(told).toEqual(
      resources.map(({ path, schema }: TabularResource) => [path, namesOf(schema.fields), schema.primaryKey]),
    );
  });
});

interface CsvwTable {
  url: string;
  tableSchema: { columns: Field[]; primaryKey: string[] };
}

interface TabularResource {
  path: string;
  schema: { fields: Field[]; primaryKey: string[] };
}

interface SchemaField {
  name: string;
  type: string;
  trueValues?: string[];
  falseValues?: string[];
  constraints?: { required?: boolean; enum?: string[]; minimum?: number; maximum?: number };
}

function fits(
  { type, trueValues = [], falseValues = [], constraints = {} }: SchemaField,
  value: string,
): boolean {
  if (value === '') return constraints.required !== true;
  if (constraints.enum && !constraints.enum.includes(value)) return false;
  if (type === 'boolean') return [...trueValues, ...falseValues].includes(value);
  if (type === 'string') return true;
  if (!(type === 'integer' ? /^-?\d+$/ : /^-?\d+(\.\d+)?(e-?\d+)?$/).test(value)) return false;
  const { minimum = -Infinity, maximum = Infinity } = constraints;
  return Number(value) >= minimum && Number(value) <= maximum;
}
