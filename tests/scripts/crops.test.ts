import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { readCropAreas } from '@/db/repositories/crop-areas';
import { setProgramme } from '@/db/repositories/programme';
import { atlasCounties } from '@/lib/geography/atlas';
import { readCropTable } from '@/scripts/support/crop-table';
import { type TestDatabase, testDatabase } from '../support/database';
import { databaseEnvironment, runCommand } from '../support/run-command';

// All tables are invented.
const STATES = ['NE', 'SD'];
const read = (text: string | Uint8Array) =>
  readCropTable(typeof text === 'string' ? new TextEncoder().encode(text) : text, {
    counties: atlasCounties(),
    states: STATES,
  });

describe('a county table of crop areas', () => {
  it('is read in any order of columns, with any usual delimiter and encoding, below a title', async () => {
    const expected = {
      areas: [{ crop: 'grain sorghum', year: 2024, county: '31109', hectares: 12_500.5 }],
      ...{ outside: 0, untold: 0 },
    };
    expect(await read('County FIPS,Crop,Year,Hectares\n31109,Grain  Sorghum,2024,"12,500.5"\n')).toEqual(
      expected,
    );
    expect(await read('Planted (ha);Year;Crop;FIPS;x\r\n12500.5;2024;grain sorghum;31109;1\r\n')).toEqual(
      expected,
    );
    const utf16 = Buffer.from(
      '\ufeffInvented\n\nState\tCounty\tCrop\tYear\tHectares harvested\nNebraska\tLancaster Co.\tgrain sorghum\t2024\t12500.5',
      'utf16le',
    );
    expect(await read(utf16)).toEqual(expected);
  });

  it('in acres is told in hectares by the international acre', async () => {
    const { areas } = await read('fips,crop,year,"Area, acres"\n31109,corn,2024,1000\n');
    // 1 acre = 4,046.8564224 m² (1959 agreement on yard and pound; from memory).
    expect(areas[0]!.hectares).toBeCloseTo(404.68564224, 9);
  });

  it('knows counties by code, by a code without its zero, by a former code, and by name and state', async () => {
    const { areas, outside } = await read(
      'FIPS,County,State,Crop,Year,Hectares\n31001,,,corn,2024,1\n,saint charles,MO,corn,2024,2\n' +
        '46113,,,corn,2024,3\n,Lincoln,NE,corn,2024,4\n1001,,,corn,2024,5\n',
    );
    expect(areas.map(({ county }) => county)).toEqual(['31001', '46102', '31111']);
    expect(outside).toBe(2);
  });

  it('tells withheld figures and totals apart from zero', async () => {
    const { areas, untold } = await read(
      'FIPS,Crop,Year,Hectares\n31109,corn,2024,0\n31111,corn,2024,(D)\n31113,corn,2024,\n31000,corn,2024,900\n31998,corn,2024,9\n',
    );
    expect(areas).toEqual([{ crop: 'corn', year: 2024, county: '31109', hectares: 0 }]);
    expect(untold).toBe(4);
  });

  it.each([
    ['31109,corn,2024,-5', /Line 2, Hectares: “-5” is no area\. Write a number/],
    ['31109,corn,2024,"1,5"', /Line 2, Hectares: “1,5” is no area/],
    ['31109,corn,2024,1e12', /Hectares: “1e12” is no area/],
    ['31109,corn,24,5', /Line 2, year: “24” is no year\. Write it as 2024/],
    ['31109,,2024,5', /Line 2, crop: “” is no name of a crop/],
    ['31110,corn,2024,5', /Line 2, county FIPS: there is no county “31110”\. Write the five-digit FIPS code/],
    [',corn,2024,5', /Line 2, county: it is blank/],
    [
      '31109,corn,2024,5\n31109,Corn,2024,6',
      /Line 3, county: corn of 2024 in 31109 stands in line 2 too\. Keep one/,
    ],
    ['31109,corn,2024', /Line 2: it cannot be taken apart into 4 cells/],
  ])('with %j is refused, and the message names row, column and remedy', async (rows, message) => {
    await expect(read(`FIPS,Crop,Year,Hectares\n${rows}\n`)).rejects.toThrow(message);
  });

  it('whose names fit two counties, none, or not the code is refused', async () => {
    const table = (row: string) => read(`FIPS,County,State,Crop,Year,Hectares\n${row},corn,2024,5\n`);
    await expect(table(',Lincoln,')).rejects.toThrow(/county: “Lincoln” may be .*Write the FIPS code/);
    await expect(table(',Lancastr,NE')).rejects.toThrow(
      /no county “Lancastr” in NE\. Is it Lancaster County, NE \(31109\)/,
    );
    await expect(table('31109,Gage,NE')).rejects.toThrow(
      /31109 is Lancaster County.*not Gage County.*Correct one/,
    );
    await expect(table(',Gage,Nebrasca')).rejects.toThrow(/state: “Nebrasca” is no state/);
  });

  it('without unit, column or rows, or with one column twice, says what is needed', async () => {
    await expect(read('FIPS,Crop,Year,Area\n31109,corn,2024,5\n')).rejects.toThrow(/hectares or acres/);
    await expect(read('FIPS,Crop,Hectares,x\n31109,corn,5,x\n')).rejects.toThrow(/columns are missing: year/);
    await expect(read('State,Crop,Year,Hectares\nNE,corn,2024,5\n')).rejects.toThrow(/missing: county FIPS/);
    await expect(read('FIPS,Crop,Year,Hectares\n')).rejects.toThrow(/no rows/);
    await expect(read('FIPS,Crop,Year,Hectares,Acres\n31109,corn,2024,5,9\n')).rejects.toThrow(
      /“Hectares” and “Acres” mean the same column/,
    );
    await expect(read(new Uint8Array())).rejects.toThrow(/empty/);
  });

  it('names eight wrong lines at most and counts the others', async () => {
    const rows = Array.from({ length: 20 }, () => '31109,corn,x,5').join('\n');
    await expect(read(`FIPS,Crop,Year,Hectares\n${rows}`)).rejects.toThrow(
      /Line 9, year.*\nand 12 more lines/,
    );
  });

  it('reads whatever it wrote', async () => {
    const fips = atlasCounties().flatMap(({ fips, state }) => (STATES.includes(state) ? [fips] : []));
    const entry = fc.record({
      crop: fc.constantFrom('corn', 'grain sorghum', 'wheat, winter'),
      year: fc.integer({ min: 1900, max: 2100 }),
      county: fc.constantFrom(...fips),
      hectares: fc.integer({ min: 0, max: 9e8 }),
    });
    const tables = fc.uniqueArray(entry, {
      ...{ minLength: 1, maxLength: 30 },
      selector: ({ crop, year, county }) => `${crop}|${year}|${county}`,
    });
    await fc.assert(
      fc.asyncProperty(tables, fc.constantFrom(',', ';', '\t', '|'), async (areas, delimiter) => {
        const rows = areas.map(({ crop, year, county, hectares }) =>
          [`"${crop}"`, year, county, hectares].join(delimiter),
        );
        const text = [['Crop', 'Year', 'FIPS', 'Hectares'].join(delimiter), ...rows].join('\n');
        expect(await read(text)).toEqual({ areas, outside: 0, untold: 0 });
      }),
      { numRuns: 50 },
    );
  });
});

describe('npm run crops', () => {
  let database: TestDatabase;
  let db: StaffDatabase;
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fencerow-crops-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  beforeEach(async () => {
    database = await testDatabase();
    db = staffClient(database.staffUrl);
    const named = { name: 'Invented', regionName: 'Invented basin', laboratory: 'Invented Laboratory' };
    await setProgramme(db, { ...named, states: STATES, simulated: true });
  });
  afterEach(async () => {
    await closeClient(db);
    await database.drop();
  });
  const run = (...words: string[]) => runCommand('crops.ts', words, databaseEnvironment(database));
  const file = (text: string) => {
    const path = join(folder, 'areas.csv');
    writeFileSync(path, text);
    return path;
  };

  it('loads a table in place of the last one, lists it and takes it out', async () => {
    const path = file(
      'FIPS,Crop,Year,Acres\n31109,Sorghum,2024,100\n20001,Sorghum,2024,5\n31111,Sorghum,2024,(D)\n',
    );
    const loaded = await run('load', path, '--by', 'Ada');
    expect(loaded).toMatchObject({ code: 0, err: '' });
    expect(loaded.out).toContain('1 area stored, in place of those before: sorghum 2024.');
    expect(loaded.out).toContain('Outside the region and not stored: 1 row.');
    expect(loaded.out).toContain('a total) and not stored: 1 row.');
    await run('load', file('FIPS,Crop,Year,Hectares\n31111,sorghum,2024,2500\n'), '--by', 'Ada');
    expect(await readCropAreas(db)).toEqual([
      { crop: 'sorghum', year: 2024, county: '31111', hectares: 2500 },
    ]);
    expect((await run()).out).toMatch(
      /^sorghum, 2024: 2,500 ha in 1 county \(areas\.csv, \d{4}-\d\d-\d\d, Ada\)\n$/,
    );
    expect((await run('remove', 'Sorghum', '2024')).out).toContain('areas of 1 county were taken out');
    expect((await run('list')).out).toBe('No crop areas are stored.\n');
  });

  it('stores nothing of a table with a wrong row, or with none of the region', async () => {
    expect(
      await run('load', file('FIPS,Crop,Year,Acres\n31109,Sorghum,2024,100\n31111,Sorghum,2024,many\n')),
    ).toMatchObject({
      code: 1,
      err: expect.stringMatching(/Line 3, Acres: “many” is no area.*\nNothing was stored/),
    });
    expect(await run('load', file('FIPS,Crop,Year,Acres\n20001,Sorghum,2024,100\n'))).toMatchObject({
      code: 1,
      err: expect.stringContaining('No row tells an area of a county of the programme (NE, SD)'),
    });
    expect(await run('load', join(folder, 'none.csv'))).toMatchObject({
      code: 1,
      err: expect.stringContaining('There is no file'),
    });
    expect(await run('load')).toMatchObject({
      code: 1,
      err: expect.stringContaining('Usage: npm run crops'),
    });
    expect(await readCropAreas(db)).toEqual([]);
  });
});
