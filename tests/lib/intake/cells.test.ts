import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseCoordinate } from '@/lib/intake/parse-coordinate';
import { parseDate } from '@/lib/intake/parse-date';
import { readCheck } from '@/lib/intake/read-check';
import { readCoordinates } from '@/lib/intake/read-coordinates';
import { readCounts } from '@/lib/intake/read-counts';
import { readDates } from '@/lib/intake/read-dates';
import { readRate } from '@/lib/intake/read-rate';
import { readTexts } from '@/lib/intake/read-texts';
import { readAssay, readConsent, readDesign } from '@/lib/intake/read-words';

// Rules P1, P7, P12 to P16 and P19 to P21 of the programme; all cells are invented.
const first = (reading: { problems: { code: string; outcome: string }[] }) => reading.problems[0]?.code;

describe('a date', () => {
  it.each([
    ['2026-09-14', '2026-09-14'],
    ['2026-09-14T08:30', '2026-09-14'],
    ['9/14/2026 10:05', '2026-09-14'],
    ['20260914', '2026-09-14'],
    ['9/14/26', '2026-09-14'],
    ['09-14-2026', '2026-09-14'],
    ['9.14.2026', '2026-09-14'],
    ['13/09/2026', '2026-09-13'],
    ['14-Sep-26', '2026-09-14'],
    ['14 September 2026', '2026-09-14'],
    ['Sept. 14, 2026', '2026-09-14'],
    ['September 14th, 2026', '2026-09-14'],
    ['46279', '2026-09-14'],
    ['46279.5', '2026-09-14'],
    ['Sept 2026', '2026-09'],
    ['2026-09', '2026-09'],
    ['fall 2026', '2026'],
    ["Fall '26", '2026'],
    ['2026', '2026'],
    ['2026 season', '2026'],
  ])('%s is %s', (text, expected) => {
    expect(parseDate(text)).toMatchObject({ text: expected });
  });

  it.each(['9/31/2026', '2026-02-29', '13/13/2026', '0206-09-14'])('%s is impossible', (text) => {
    expect(parseDate(text)).toBe('impossible');
  });

  it.each(['last week', 'see bag', '14', '9/14'])('%s is unreadable', (text) => {
    expect(parseDate(text)).toBe('unreadable');
  });

  it('is the same day in every form', () => {
    const days = fc.date({ min: new Date('2001-01-01'), max: new Date('2060-12-31'), noInvalidDate: true });
    fc.assert(
      fc.property(days, (date) => {
        const iso = date.toISOString().slice(0, 10);
        const [year, month, day] = iso.split('-').map(Number) as [number, number, number];
        const name = date.toLocaleString('en', { month: 'short', timeZone: 'UTC' });
        const serial = Math.round(Date.parse(iso) / 86_400_000) + 25_569;
        for (const text of [iso, `${month}/${day}/${year}`, `${day}-${name}-${year % 100}`, `${serial}`]) {
          if (text.endsWith(`-${year % 100}`) && year % 100 < 10) continue;
          expect(parseDate(text)).toMatchObject({ text: iso });
        }
      }),
    );
  });

  it.each([
    ['', '2026-09-21', 'DATE_MISSING'],
    ['n/a', '', 'DATE_MISSING'],
    ['2027-09-14', '2026-09-21', 'DATE_FUTURE'],
    ['2026-10-14', '2026-09-21', 'DATE_ORDER'],
    ['2026', '2025-12-30', 'DATE_ORDER'],
    ['soon', '2026-09-21', 'DATE_UNREADABLE'],
    ['2026-09-14', '2026-13-21', 'DATE_IMPOSSIBLE'],
    ['2026', '2026-01-05', undefined],
    ['2026-11-20', '', undefined],
  ])('collected %j, received %j asks %s', (collected, received, code) => {
    expect(first(readDates({ collected, received }, '2026-11-20'))).toBe(code);
  });
});

describe('counts', () => {
  const counts = (treated: string, alive: string, remarks = '', minimum = 10) =>
    readCounts({ treated, alive, remarks }, minimum);

  it.each([
    ['40', '8', 8, []],
    ['40.0', '8', 8, []],
    ['40', '14/40', 14, ['FROM_FRACTION']],
    ['40', '14 of 40', 14, ['FROM_FRACTION']],
    ['40', '35%', 14, ['FROM_PERCENT']],
    ['40', '33 %', 13, ['FROM_PERCENT']],
    ['40', '32.5%', 13, ['FROM_PERCENT']],
    ['120', '1', 1, ['SURVIVAL_BELOW_1_PCT']],
  ])('%s treated, %s alive: %s alive', (treated, alive, expected, flags) => {
    expect(counts(treated, alive)).toEqual({
      value: { treated: Number(treated), alive: expected },
      flags,
      problems: [],
    });
  });

  it.each([
    ['40', '44', 'COUNTS_IMPOSSIBLE'],
    ['40', '120%', 'COUNTS_IMPOSSIBLE'],
    ['40', '-3', 'COUNTS_IMPOSSIBLE'],
    ['6', '8', 'COUNTS_IMPOSSIBLE'],
    ['40', '34%', 'COUNTS_NOT_WHOLE'],
    ['40', '14/50', 'COUNTS_CONFLICT'],
    ['40', 'most', 'COUNTS_NOT_NUMERIC'],
    ['40', '12.5', 'COUNTS_NOT_NUMERIC'],
    ['40', '', 'COUNTS_NOT_NUMERIC'],
    ['', '', 'COUNTS_NOT_NUMERIC'],
    ['9', '3', 'TOO_FEW_PLANTS'],
    ['0', '0', 'NOT_TESTABLE'],
    ['0', '', 'NOT_TESTABLE'],
    ['', 'no emergence', 'NOT_TESTABLE'],
  ])('%j treated, %j alive: %s', (treated, alive, code) => {
    expect(first(counts(treated, alive))).toBe(code);
  });

  it('a remark on dead seed counts only where no plant was', () => {
    expect(first(counts('', '', 'seed not viable'))).toBe('NOT_TESTABLE');
    expect(counts('40', '12', 'first lot did not germinate').problems).toEqual([]);
  });

  it('any whole number of plants comes back from its percentage to one decimal', () => {
    const pairs = fc.integer({ min: 10, max: 400 }).chain((n) => fc.tuple(fc.constant(n), fc.nat(n)));
    fc.assert(
      fc.property(pairs, ([treated, alive]) => {
        const percent = `${((100 * alive) / treated).toFixed(1)}%`;
        expect(counts(String(treated), percent).value).toEqual({ treated, alive });
      }),
    );
  });
});

describe('a rate', () => {
  it.each([
    ['1x', 1],
    ['2X', 2],
    ['4 ×', 4],
    ['0.5', 0.5],
    ['.5x', 0.5],
    ['0,5x', 0.5],
    ['x3', 3],
    ['label', 1],
    ['label rate', 1],
    ['1x label rate', 1],
    ['half', 0.5],
    ['1/2', 0.5],
    ['double', 2],
  ])('%s is %s', (text, multiple) => {
    expect(readRate(text, 'whole plant').value).toEqual({ multiple });
  });

  it.each([
    ['870 g ae/ha', 'RATE_UNIT'],
    ['22 oz/A', 'RATE_UNIT'],
    ['8x', 'RATE_UNUSUAL'],
    ['high', 'RATE_UNREADABLE'],
    ['', 'RATE_MISSING'],
  ])('%j asks %s', (text, code) => {
    expect(first(readRate(text, 'soil-applied'))).toBe(code);
  });

  it('of a run is any dose of a series', () => {
    for (const [text, multiple] of [
      ['16x', 16],
      ['1/8', 0.125],
      ['0.031', 0.031],
      ['1/32x', 0.03125],
    ] as const)
      expect(readRate(text, 'whole plant', true).value).toEqual({ multiple });
    expect(first(readRate('870', 'whole plant', true))).toBe('RATE_UNUSUAL');
  });

  it('may be blank in a molecular assay', () => {
    expect(readRate('', 'molecular')).toEqual({ value: { multiple: null }, flags: [], problems: [] });
  });
});

describe('coordinates', () => {
  it.each([
    ['41.25197', 41.25197, null],
    ['40°50\'29.4"N', 40.8415, 'COORD_DMS'],
    ['96° 36′ 7.1″ W', -96.601972, 'COORD_DMS'],
    ['39 20.684 N', 39.344733, 'COORD_DDM'],
    ['W 96.78568', -96.78568, 'COORD_HEMISPHERE'],
    ['-96,83766', -96.83766, 'COORD_DECIMAL_COMMA'],
    ['−96.5', -96.5, null],
  ])('%s is %s degrees', (text, degrees, flag) => {
    expect(parseCoordinate(text)).toMatchObject({ degrees, flag });
  });

  it.each(['see map', '40 75.2', '40.5 20', 'T10N', '40 20 10 5', ''])('%j is none', (text) => {
    expect(parseCoordinate(text)).toBeNull();
  });

  it('come back from degrees, minutes and seconds', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 179.999, noNaN: true }), (degrees) => {
        const seconds = Math.round(degrees * 3600 * 1e4) / 1e4;
        const [d, m] = [Math.floor(seconds / 3600), Math.floor((seconds % 3600) / 60)];
        const text = `${d}°${m}'${(seconds - d * 3600 - m * 60).toFixed(4)}"W`;
        if (text.includes("'60.")) return;
        expect(parseCoordinate(text)!.degrees).toBeCloseTo(-degrees, 5);
      }),
    );
  });

  it.each([
    ['40.95633, -96.69395', ''],
    ['', '40.95633; -96.69395'],
    ['40.95633,-96.69395', ''],
    ['40,95633 -96,69395', ''],
    ['N40.95633 W96.69395', ''],
  ])('both in one cell: %j %j', (lat, lon) => {
    expect(readCoordinates(lat, lon)).toEqual({
      point: { lat: 40.95633, lon: -96.69395 },
      flags: ['COORD_ONE_CELL'],
    });
  });

  it.each([
    ['0', '0', 'COORD_ZERO'],
    ['41', '-97', 'COORD_LOW_PRECISION'],
    ['41.0', '-97.00', 'COORD_LOW_PRECISION'],
    ['40.77417', '', 'COORD_INCOMPLETE'],
    ['40.77417', 'n/a', 'COORD_INCOMPLETE'],
    ['39 20.684', '', 'COORD_INCOMPLETE'],
    ['n/a', 'see map', 'COORD_UNREADABLE'],
    ['14T 693250E 4515400N', '', 'COORD_SYSTEM'],
    ['693250', '4515400', 'COORD_SYSTEM'],
  ])('%j %j gives no point but the note %s', (lat, lon, flag) => {
    expect(readCoordinates(lat, lon)).toEqual({ point: null, flags: [flag] });
  });
});

describe('words', () => {
  it('only a killed check lets a run count', () => {
    const check = (
      word: string,
      plants: { checkTreated?: string; checkAlive?: string; resistantCheck?: string } = {},
    ) => readCheck({ check: word, checkTreated: '', checkAlive: '', resistantCheck: '', ...plants });
    expect(check('Y').problems).toEqual([]);
    expect(check('dead').problems).toEqual([]);
    expect(check('N').problems[0]).toMatchObject({ code: 'CHECK_FAILED', outcome: 'refused' });
    expect(check('').problems[0]).toMatchObject({ code: 'CHECK_MISSING', outcome: 'in question' });
    expect(first(check('0'))).toBe('CHECK_UNREADABLE');
    expect(check('', { checkTreated: '20', checkAlive: '0' }).value).toEqual({
      susceptibleCheck: { treated: 20, alive: 0 },
    });
    expect(check('', { checkAlive: '1/20' }).problems).toEqual([]);
    expect(first(check('', { checkTreated: '20', checkAlive: '3' }))).toBe('CHECK_FAILED');
    expect(first(check('', { checkAlive: 'some' }))).toBe('CHECK_UNREADABLE');
    expect(first(check('Y', { resistantCheck: 'dead' }))).toBe('CHECK_FAILED');
    expect(check('Y', { resistantCheck: 'alive' }).problems).toEqual([]);
  });

  it('only a plain yes is consent', () => {
    expect(readConsent('yes')).toEqual({ value: true, flags: [], problems: [] });
    expect(readConsent('N')).toEqual({ value: false, flags: [], problems: [] });
    expect(readConsent('')).toEqual({ value: false, flags: ['CONSENT_BLANK'], problems: [] });
    expect(readConsent('ask me')).toEqual({ value: false, flags: ['CONSENT_UNREADABLE'], problems: [] });
  });

  it('a blank design is submitted, a blank assay whole plant; other words are asked about', () => {
    expect(readDesign('').value).toBe('submitted');
    expect(readDesign('Follow-up').value).toBe('follow-up');
    expect(first(readDesign('lottery'))).toBe('DESIGN_UNKNOWN');
    expect(readAssay('').value).toBe('whole plant');
    expect(readAssay('soil-applied').value).toBe('soil-applied');
    expect(readAssay('Molecular').value).toBe('molecular');
    expect(first(readAssay('guess'))).toBe('ASSAY_UNKNOWN');
  });

  const none = Object.fromEntries(
    ['place', 'crop', 'operation', 'funder', 'sender', 'laboratory'].map((c) => [c, '']),
  );
  it.each([
    ['=1+1', ['TEXT_SANITISED']],
    ['+SUM(A1)', ['TEXT_SANITISED']],
    ['@cmd', ['TEXT_SANITISED']],
    ['<b>bold</b>', ['TEXT_SANITISED']],
    ['call (402) 555-0143', ['PII_IN_TEXT']],
    ['a.b@invented.invalid', ['PII_IN_TEXT']],
    ['ask for Jo Invented at the gate', ['PII_IN_TEXT']],
    ['Mrs. Invented', ['PII_IN_TEXT']],
    ['call before you come, Palmer amaranth everywhere', []],
    ['-', []],
    ['plants < 10 cm, 2026-09-14, lot 12-345-6789', []],
  ])('the text %j has the notes %j', (remarks, flags) => {
    const cells = { ...none, sample: 'T-1', remarks } as Parameters<typeof readTexts>[0];
    expect(readTexts(cells)).toEqual(flags);
  });
});
