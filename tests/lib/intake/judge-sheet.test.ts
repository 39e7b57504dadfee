import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atlasCounties } from '@/lib/geography/atlas';
import type { Judged } from '@/lib/intake/judged';
import { reasonLines } from '@/lib/intake/report-line';
import { GOOD, judgeAll, judgeOne, sheetOf } from './judging';

// All rows are invented; P numbers are the programme's rules.
const verdict = ({ outcome, county, reasons, flags }: Judged) => [
  outcome,
  county,
  reasons[0]?.code ?? flags[0] ?? null,
];

describe('a place (P3 to P9)', () => {
  it.each([
    [{ County: '109' }, 'accepted', '31109', 'COUNTY_FIPS'],
    [{ State: '31', County: 'Lancaster' }, 'accepted', '31109', 'STATE_NAME'],
    [{ State: '', County: 'Pemiscot' }, 'accepted', '29155', 'STATE_FROM_COUNTY_NAME'],
    [{ State: '', County: '31109' }, 'accepted', '31109', 'COUNTY_FIPS'],
    [{ State: '', County: 'Cook' }, 'in question', null, 'STATE_MISSING'],
    [{ State: 'Nebrasca' }, 'in question', null, 'STATE_UNKNOWN'],
    [{ State: 'ND', County: 'Cass' }, 'in question', null, 'OUT_OF_REGION'],
    [{ State: '', County: '38017' }, 'in question', null, 'OUT_OF_REGION'],
    [{ State: 'MO', County: 'St. Louis County' }, 'accepted', '29189', 'COUNTY_ALIAS'],
    [{ State: 'MO', County: 'St. Louis City' }, 'accepted', '29510', 'COUNTY_ALIAS'],
    [{ County: '', Lat: '40.84', Long: '-9.65' }, 'in question', null, 'COORD_OUTSIDE_US'],
    [{ County: '', Lat: '-96.66662', Long: '40.6177' }, 'in question', null, 'COORD_SWAPPED'],
    [
      { State: 'KS', County: '', Lat: '40.8442', Long: '-96.74025' },
      'in question',
      null,
      'STATE_COORD_CONFLICT',
    ],
    [{ County: 'Lancster', Lat: '40.94281', Long: '-97.21715' }, 'in question', null, 'COUNTY_UNKNOWN'],
    [{ Lat: '400.8442', Long: '-96.74025' }, 'in question', null, 'COORD_OUTSIDE_US'],
    [{ County: 'Lincoln' }, 'accepted', '31111', null],
    [{ County: 'Lincoln', 'Location notes': 'Lincoln County, north' }, 'accepted', '31111', null],
    [
      { State: 'IA', County: 'Des Moines', 'Location notes': 'east of Des Moines' },
      'in question',
      null,
      'PLACE_OR_COUNTY',
    ],
  ])('%j: %s %s %s', async (cells, outcome, county, code) => {
    expect(verdict(await judgeOne(cells))).toEqual([outcome, county, code]);
  });

  it('a point decides between counties of one name', async () => {
    const counties = atlasCounties();
    for (const fips of ['29189', '29510']) {
      const { lat, lon } = counties.find((county) => county.fips === fips)!;
      const cells = { State: 'MO', County: 'St. Louis', Lat: lat.toFixed(5), Long: lon.toFixed(5) };
      expect((await judgeOne(cells)).county).toBe(fips);
    }
  });

  it('a county is found from its name, its FIPS code with or without leading zero, and its point alike', async () => {
    const region = atlasCounties().filter(({ state }) => ['AR', 'NE', 'KS', 'LA'].includes(state));
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...region), async ({ fips, fullName, state, lat, lon }) => {
        const place = (County: string, Lat = '', Long = '') => ({ State: state, County, Lat, Long });
        const point = [lat.toFixed(6), lon.toFixed(6)] as const;
        const rows = [place(fullName), place(fips), place(String(Number(fips))), place(fullName, ...point)];
        const judged = await judgeAll(sheetOf(rows.map((row, i) => ({ ...row, 'Sample #': `T-${i}` }))));
        expect(judged.map(({ county }) => county)).toEqual([fips, fips, fips, fips]);
      }),
      { numRuns: 25 },
    );
  });
});

describe('repeats (P17, P18)', () => {
  const codes = async (...rows: Partial<Record<string, string>>[]) =>
    (await judgeAll(sheetOf(rows))).map(({ outcome, reasons, flags }) => [
      outcome,
      reasons[0]?.code ?? flags[0] ?? null,
    ]);
  const near = { Lat: '40.65827', Long: '-96.62173' };

  it('the same row twice is refused the second time, other remarks or not', async () => {
    expect(await codes({}, { Remarks: 'sent again' })).toEqual([
      ['accepted', null],
      ['refused', 'DUPLICATE'],
    ]);
  });

  it('the same test with other data is a question that says what both runs would make', async () => {
    const judged = await judgeAll(sheetOf([{}, { 'Plants alive': '10' }, {}]));
    expect(judged.map(({ outcome }) => outcome)).toEqual(['accepted', 'in question', 'refused']);
    expect(judged[1]!.reasons[0]).toMatchObject({ code: 'DUPLICATE_CONFLICT' });
    expect(judged[1]!.reasons[0]!.remedy).toContain('22 of 80: resistant');
  });

  it('another group, rate, active or assay of a sample is another test; its group alone is not', async () => {
    const first = { 'Herbicide / Group': 'imazethapyr' };
    const others = [
      { Rate: '2x' },
      { 'Herbicide / Group': 'imazamox' },
      { 'Herbicide / Group': 'fomesafen' },
      { ...first, Assay: 'soil-applied' },
    ];
    const [, ...rest] = await codes(first, ...others);
    expect(rest).toEqual(others.map(() => ['accepted', 'SAME_SAMPLE_OTHER_GROUP']));
    const [, again] = await codes(first, { 'Herbicide / Group': '2', 'Plants alive': '3' });
    expect(again).toEqual(['in question', 'DUPLICATE_CONFLICT']);
  });

  it('a run that is void does not stand in the way of its repetition', async () => {
    expect(await codes({ 'S check': 'N' }, {})).toEqual([
      ['refused', 'CHECK_FAILED'],
      ['accepted', null],
    ]);
  });

  it('two samples of one operation within 150 m in one season are asked about, farther off or later not', async () => {
    const other = (cells: Partial<Record<string, string>>) => ({ ...near, 'Sample #': 'T-2', ...cells });
    const verdicts = await codes(
      near,
      other({ Lat: '40.65937' }),
      other({ 'Sample #': 'T-3', Lat: '40.6607' }),
      other({ 'Sample #': 'T-4', 'Grower/Operation': 'OP-2' }),
      other({ 'Sample #': 'T-5', 'Date collected': '2025-09-14' }),
      other({ 'Sample #': 'T-6', 'Herbicide / Group': '2' }),
    );
    expect(verdicts.map(([, code]) => code)).toEqual([null, 'SAME_FIELD', 'SAME_FIELD', null, null, null]);
    expect((await codes(near, other({ Lat: '40.65977' })))[1]).toEqual(['accepted', null]);
  });
});

describe('a whole row', () => {
  it('with several faults has them all, a refusal first (P22)', async () => {
    const row = await judgeOne({ County: 'Lancster', 'S check': 'N', Weed: 'pigweed', Rate: '870 g/ha' });
    expect(row.outcome).toBe('refused');
    expect(row.reasons.map(({ code }) => code)).toEqual([
      'CHECK_FAILED',
      'COUNTY_UNKNOWN',
      'SPECIES_AMBIGUOUS',
      'RATE_UNIT',
    ]);
    expect(row.kind).toBeNull();
  });

  it('of few plants is a result in a molecular assay alone', async () => {
    const few = { 'Plants treated': '5', 'Plants alive': '1' };
    expect(await judgeOne({ ...few, Assay: 'molecular', Rate: '' })).toMatchObject({
      outcome: 'accepted',
      result: 'resistant',
      rateMultiple: null,
    });
    for (const Assay of ['', 'soil-applied']) {
      expect((await judgeOne({ ...few, Assay })).reasons[0]!.code).toBe('TOO_FEW_PLANTS');
    }
  });

  it('that could not be tested needs neither rate nor check, and counts as received where its place is known', async () => {
    const dead = { 'Plants treated': '0', 'Plants alive': '', 'S check': '', Rate: '' };
    expect(await judgeOne(dead)).toMatchObject({
      outcome: 'refused',
      kind: 'not testable',
      county: '31109',
      species: 'AMATU',
      group: 9,
      season: 2026,
      sample: 'T-1',
    });
    expect((await judgeOne({ ...dead, County: 'Lancster' })).kind).toBeNull();
  });

  it('of a broadleaf against group 1 is a question, tolerance being no resistance (P23)', async () => {
    expect((await judgeOne({ 'Herbicide / Group': 'clethodim' })).reasons[0]!.code).toBe('OUTSIDE_SPECTRUM');
    expect((await judgeOne({ Weed: 'SETFA', 'Herbicide / Group': 'clethodim' })).outcome).toBe('accepted');
  });

  it('carries what the sheet says of crop, funder, sender, design and consent', async () => {
    const cells = { Funder: 'corn board', 'Sent by': 'S-1', Design: 'random', 'OK to share': '' };
    expect(await judgeOne(cells)).toMatchObject({
      crop: 'corn',
      funder: 'corn board',
      sender: 'S-1',
      design: 'random',
      operation: 'OP-1',
      publicShare: false,
      actives: ['glyphosate'],
      raw: { ...GOOD, ...cells },
    });
  });

  it('is told to people with record, line, column, reason and remedy', async () => {
    expect(reasonLines(await judgeOne({ Weed: '' }))).toEqual([
      'refused: record 1 (line 2), Weed: Weed is blank. Name the weed and send the row again. [SPECIES_MISSING]',
    ]);
  });
});

it('judging is deterministic, and never throws on whatever stands in the cells', async () => {
  const cell = fc.oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom(
      '',
      'n/a',
      '0',
      '-1',
      '40',
      '9',
      'Lancaster',
      'AMATU',
      '2026',
      '40%',
      '1/2',
      '2,4-D',
      '??',
    ),
  );
  const row = fc.record(Object.fromEntries(Object.keys(GOOD).map((heading) => [heading, cell])));
  await fc.assert(
    fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 5 }), async (rows) => {
      const sheet = sheetOf(rows).replaceAll('\0', '').replaceAll('\ufffd', '');
      const once = await judgeAll(sheet).catch((error: unknown) => String(error));
      expect(await judgeAll(sheet).catch((error: unknown) => String(error))).toEqual(once);
      if (typeof once === 'string') expect(once).toMatch(/^SheetError/);
      else for (const one of once) expect(one.outcome === 'accepted').toBe(one.result !== null);
    }),
    { numRuns: 40 },
  );
});
