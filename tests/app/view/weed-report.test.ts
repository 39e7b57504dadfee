import { describe, expect, it } from 'vitest';
import { speechIn } from '@/app/messages/texts';
import { activeTables } from '@/app/view/active-tables';
import { findWeed } from '@/app/view/find-weed';
import { multipleRows } from '@/app/view/multiple-rows';
import { pickWindow } from '@/app/view/pick-window';
import { weedFindings } from '@/app/view/weed-findings';
import { weedReport } from '@/app/view/weed-report';
import { NOT_NAMED } from '@/db/repositories/published';
import type { ActiveCell, ReleasedCell } from '@/lib/disclosure/types';
import type { ReleaseHead } from '@/lib/release/types';
import { inventedRegion, inventedRelease } from '../invented-release';

// The invented release of the pages' tests, and cells invented here.
const region = inventedRegion();
const { draft } = inventedRelease();
const head: ReleaseHead = { ...draft.head, number: 1, files: [] };
const window = { first: 2022, last: 2024 };
const cell = (over: Partial<ReleasedCell>, tested: number | null, resistant = 0): ReleasedCell => ({
  placeKind: 'district',
  place: 'KS-C',
  period: window,
  species: 'KCHSC',
  group: 9,
  assay: 'whole plant',
  design: null,
  status: tested === null ? 'withheld' : 'published',
  counts: tested === null ? null : { tested, resistant, someSurvivors: 0 },
  receipt: null,
  actives: tested === null ? [] : ['glyphosate'],
  unfinished: false,
  ...over,
});
const report = (cells: ReleasedCell[], findings = draft.findings) =>
  weedReport({
    head,
    newer: null,
    errata: [],
    region,
    species: 'KCHSC',
    window,
    misfits: [],
    cells,
    findings,
    activeCells: [],
    multipleCells: [],
  });
const rowOf = (cells: ReleasedCell[], key: string) =>
  report(cells)
    .states.flatMap(({ state, districts }) => [state, ...districts])
    .find(({ place }) => place.key === key)!;

describe('a weed by district and group', () => {
  it('tells withheld from not screened and from none found', () => {
    const cells = [cell({}, 12, 11), cell({ group: 27 }, 9), cell({ place: 'KS-E' }, null)];
    expect(rowOf(cells, 'KS-C').numbers.map(({ status }) => status)).toEqual(['confirmed', 'none confirmed']);
    expect(rowOf(cells, 'KS-E').numbers.map(({ status }) => status)).toEqual([
      'no public information',
      'not screened',
    ]);
    expect(rowOf(cells, 'KS-C').numbers[0]!.estimate).toMatchObject({ tested: 12, resistant: 11 });
    expect(rowOf(cells, 'KS-E').numbers[0]!.estimate).toBeNull();
  });

  it('has each district once, below its own state, in the order of the groups', () => {
    const { states, groups } = report([]);
    expect(groups.map(({ group }) => group)).toEqual([9, 27]);
    const districts = states.flatMap(({ districts: own }) => own.map(({ place }) => place.key));
    expect(new Set(districts)).toEqual(new Set(region.districts.map(({ code }) => code)));
    expect(districts).toHaveLength(region.districts.length);
    for (const { state, districts: own } of states)
      expect(own.every(({ place }) => place.state === state.place.key)).toBe(true);
  });

  it('takes no cell of another window, weed, assay or design', () => {
    const cells = [
      cell({ period: { first: 2019, last: 2021 } }, 12, 1),
      cell({ species: 'AMAPA' }, 12, 1),
      cell({ assay: 'molecular' }, 12, 1),
      cell({ design: 'random' }, 12, 1),
    ];
    expect(rowOf(cells, 'KS-C').numbers.map(({ status }) => status)).toEqual([
      'not screened',
      'not screened',
    ]);
  });

  it('counts districts by look, all of them once', () => {
    const [nine] = report([
      cell({}, 12, 3),
      cell({ place: 'KS-E' }, 8),
      cell({ place: 'KS-W' }, null),
    ]).groups;
    expect(nine!.looks).toMatchObject({ confirmed: 1, 'none confirmed': 1, 'no public information': 1 });
    expect(Object.values(nine!.looks).reduce((sum, value) => sum + value)).toBe(region.districts.length);
  });

  it('names the actives of published cells, and what a clean region still allows', () => {
    const [nine, other] = report([
      cell({ placeKind: 'region', place: 'region' }, 29),
      cell({ actives: ['diflufenzopyr', 'glyphosate'] }, 6, 1),
      cell({ placeKind: 'region', place: 'region', group: 27 }, 29, 1),
    ]).groups;
    expect(nine!.actives).toEqual(['diflufenzopyr', 'glyphosate']);
    // 1 − 0.05^(1/29), Clopper & Pearson 1934, one tail.
    expect(nine!.upper).toBeCloseTo(1 - 0.05 ** (1 / 29), 6);
    expect(other!.upper).toBeNull();
  });
});

describe('actives of one group', () => {
  const ofActive = (active: string, over: Partial<ActiveCell> = {}): ActiveCell => ({
    ...{ district: 'KS-C', period: window, species: 'KCHSC', group: 4, active, status: 'published' },
    counts: { tested: 10, resistant: 4, someSurvivors: 0 },
    ...over,
  });
  const tables = (cells: ActiveCell[]) => activeTables(cells, region, window);

  it('stand beside each other where there are several, withheld told from not screened', () => {
    const [table, ...others] = tables([
      ofActive('fluroxypyr'),
      ofActive('dicamba', { counts: null, status: 'withheld' }),
      ofActive('dicamba', { district: 'KS-E' }),
      ofActive('glyphosate', { group: 9 }),
    ]);
    expect(others).toEqual([]);
    expect(table).toMatchObject({ group: 4, actives: ['dicamba', 'fluroxypyr'] });
    expect(table!.rows.map(({ place, numbers }) => [place.key, numbers.map(({ status }) => status)])).toEqual(
      [
        ['KS-C', ['no public information', 'confirmed']],
        ['KS-E', ['confirmed', 'not screened']],
      ],
    );
  });

  it('are two that have names: results without one do not count as another', () => {
    expect(tables([ofActive('dicamba'), ofActive(NOT_NAMED)])).toEqual([]);
    const [table] = tables([ofActive('dicamba'), ofActive(NOT_NAMED), ofActive('fluroxypyr')]);
    expect(table!.actives).toEqual(['dicamba', 'fluroxypyr', null]);
    expect(table!.rows[0]!.numbers).toHaveLength(3);
  });

  it('of another window are left out', () => {
    const other = { period: { first: 2019, last: 2021 } };
    expect(tables([ofActive('dicamba', other), ofActive('fluroxypyr', other)])).toEqual([]);
  });
});

describe('resistance to several groups', () => {
  it('has the share of two or more with its interval, and nothing where it is withheld', () => {
    const period = window;
    const base = { placeKind: 'state' as const, period, species: 'KCHSC' };
    const [known, hidden] = multipleRows(
      [
        { ...base, place: 'KS', status: 'published', counts: { tested: 40, none: 10, one: 18, several: 12 } },
        { ...base, place: 'NE', status: 'withheld', counts: null },
      ],
      region,
    );
    expect([known!.place.name, hidden!.place.name]).toEqual(['Kansas', 'Nebraska']);
    // 95 % Wilson interval of 12 of 40, computed by its formula (Wilson 1927).
    expect(known!.several!.low).toBeCloseTo(0.1807, 3);
    expect(known!.several!.high).toBeCloseTo(0.4543, 3);
    expect([hidden!.counts, hidden!.several]).toEqual([null, null]);
    const { row } = speechIn('en').texts.weed.multiple;
    expect(row(known!)).toMatch(/^Of 40 .* 12 were resistant to two or more: 30.*18 to one, 10 to none\.$/);
    expect(row(hidden!)).toBe('Withheld.');
  });
});

describe('the sentence of a weed', () => {
  it('says what was found, what was not and how sure, and what is not public, in both languages', () => {
    const cells = [
      cell({ placeKind: 'region', place: 'region' }, 29),
      cell({ placeKind: 'region', place: 'region', group: 27 }, 40, 10),
    ];
    expect(speechIn('en').texts.weed.headline(report(cells))).toEqual([
      'Among kochia populations screened from Invented basin, 2022–2024, some were resistant to group 27 (25\u00a0% of 40).',
      'No resistance was found to group 9 (29 screened, which still allows up to 10\u00a0%).',
    ]);
    expect(speechIn('es').texts.weed.headline(report(cells)).join(' ')).toMatch(
      /resistentes al grupo 27 .* No se encontró resistencia al grupo 9/,
    );
    const hidden = [cell({ placeKind: 'region', place: 'region' }, null)];
    expect(speechIn('en').texts.weed.headline(report(hidden))).toEqual(['Not public: group 9.']);
    expect(speechIn('en').texts.weed.headline(report([]))[0]).toMatch(/^None was screened/);
  });
});

describe('the findings of a weed', () => {
  it('are those of its groups in the window, at district grain, each group once', () => {
    const { told, noSign, tooLittle } = weedFindings(report(draft.cube.cells as ReleasedCell[]));
    for (const { clusters, speeds, first } of told) {
      for (const { period } of [...clusters, ...first]) {
        expect(period.first).toBeGreaterThanOrEqual(2022);
        expect(period.last).toBeLessThanOrEqual(2024);
      }
      expect(first.every(({ placeKind }) => placeKind === 'district')).toBe(true);
      expect(speeds.every(({ speed }) => speed !== null)).toBe(true);
    }
    const judged = [
      ...told.filter(({ clusters }) => clusters.length > 0).map(({ group }) => group),
      ...noSign,
      ...tooLittle,
    ];
    expect(judged.sort((a, b) => a - b)).toEqual([9, 27]);
  });
});

describe('the address of a weed', () => {
  it('is its code, its common or its scientific name', () => {
    for (const asked of ['KCHSC', 'kchsc', 'kochia', 'Bassia-scoparia'])
      expect(findWeed(asked, head)).toBe('KCHSC');
    expect(findWeed('palmer-amaranth', head)).toBe('AMAPA');
    // In the list of weeds, and not in this release.
    expect(findWeed('wild-oat', head)).toBe('AVEFA');
    expect(findWeed('dandelion', head)).toBeNull();
  });

  it('holds a window of the release, and says which it does not have', () => {
    expect(pickWindow({ window: '2019-2021' }, head)).toEqual({
      window: { first: 2019, last: 2021 },
      misfits: [],
    });
    expect(pickWindow({}, head).window).toEqual(window);
    expect(pickWindow({ window: ['2020-2022'] }, head)).toEqual({
      window,
      misfits: [{ parameter: 'window', asked: '2020-2022' }],
    });
    expect(pickWindow({}, { windows: [] }).window).toBeNull();
  });
});
