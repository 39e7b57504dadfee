import { describe, expect, it } from 'vitest';
import type { Cell } from '@/lib/cube/types';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import type { ReleasedCell, ReleasedCube, ReleasedStatus } from '@/lib/disclosure/types';
import { inventTree } from './support/invented';

// What a careless gate gives away, as invented tables: two states of two districts of three counties, one pair.
const TREE = inventTree({ states: 2, districts: 2, counties: 3 });
const { dominanceShare: _, ...policy } = DEFAULT_POLICY;
const WINDOW = { first: 2019, last: 2021 };
type Place = Pick<ReleasedCell, 'placeKind' | 'place'>;
const REGION: Place = { placeKind: 'region', place: 'region' };
const state = (s: number): Place => ({ placeKind: 'state', place: `S${s}` });
const district = (s: number, d: number): Place => ({ placeKind: 'district', place: `S${s}-${d}` });
const county = (s: number, d: number, c: number): Place => ({
  placeKind: 'county',
  place: `${10 + s}${d}0${c}`,
});

function cell(at: Place, counts: [tested: number, resistant: number] | null, period = WINDOW): ReleasedCell {
  return {
    ...at,
    period,
    species: 'KCHSC',
    group: 9,
    assay: 'whole plant',
    design: null,
    status: counts ? 'published' : 'withheld',
    counts: counts && { tested: counts[0], resistant: counts[1], someSurvivors: 0 },
    receipt: null,
    actives: [],
    unfinished: false,
  };
}

function cube(cells: ReleasedCell[], statuses: ReleasedStatus[] = []): ReleasedCube {
  return releasedCubeFromStore({
    policy,
    firstSeason: 2019,
    closedSeasons: [2019, 2020, 2021],
    openSeason: null,
    windows: [WINDOW],
    seasonTables: [],
    areas: [],
    cells,
    statuses,
  });
}

const audit = (cells: ReleasedCell[], statuses: ReleasedStatus[] = []) =>
  auditRelease({ cube: cube(cells, statuses), places: TREE });

/** Two states, of which only these counties of the first district were screened. */
function table(counties: ([number, number] | null)[], whole: [number, number]): ReleasedCell[] {
  return [
    cell(REGION, whole),
    cell(state(0), whole),
    cell(district(0, 0), whole),
    ...counties.map((counts, c) => cell(county(0, 0, c), counts)),
  ];
}

describe('the audit finds', () => {
  it('the one small number that is hidden while its total is shown', async () => {
    const { clean, breaches } = await audit(table([[9, 4], [8, 3], null], [19, 8]));
    expect(clean).toBe(false);
    expect(breaches).toContainEqual(
      expect.objectContaining({ measure: 'tested', low: 2, high: 2, kind: 'exact' }),
    );
    expect(breaches).toContainEqual(
      expect.objectContaining({ measure: 'resistant', low: 1, high: 1, kind: 'exact' }),
    );
  });

  it('nothing where two are hidden and each leaves room', async () => {
    expect((await audit(table([[9, 4], null, null], [21, 9]))).breaches).toEqual([]);
  });

  it('all resistant of a hidden pair, when the total leaves them no other outcome', async () => {
    const { breaches } = await audit(table([[9, 4], null, null], [15, 10]));
    const kinds = breaches.map(({ measure, kind }) => `${measure} ${kind}`);
    expect(kinds).toContain('not resistant exact');
  });

  it('a season that follows from a window and its other seasons', async () => {
    const season = (year: number, counts: [number, number] | null) =>
      cell(REGION, counts, { first: year, last: year });
    const { breaches } = await audit([
      cell(REGION, [30, 12]),
      season(2019, [12, 5]),
      season(2020, [15, 6]),
      season(2021, null),
    ]);
    expect(breaches).toContainEqual(
      expect.objectContaining({ measure: 'tested', low: 3, high: 3, kind: 'exact' }),
    );
  });

  it('a cell hidden by row but not by column: two hidden counties, one of which the seasons give away', async () => {
    const year = (at: Place, counts: [number, number] | null, season: number) =>
      cell(at, counts, { first: season, last: season });
    const cells = [
      ...table([[9, 4], null, null], [21, 9]),
      ...[2019, 2020, 2021].flatMap((season) => [year(county(0, 0, 1), [2, 1], season)]),
    ];
    const { breaches } = await audit(cells);
    expect(
      breaches
        .filter(({ kind }) => kind === 'exact')
        .map(({ cell }) => cell)
        .join(),
    ).toContain('county');
  });

  it('a status that pins a hidden find', async () => {
    const cells = table([[9, 4], null, null], [21, 5]);
    const confirmed: ReleasedStatus = { ...county(0, 0, 1), species: 'KCHSC', group: 9, status: 'confirmed' };
    expect((await audit(cells)).breaches).toEqual([]);
    const { breaches } = await audit(cells, [confirmed]);
    expect(breaches).toContainEqual(expect.objectContaining({ measure: 'resistant', low: 1, high: 1 }));
  });

  it('sums that disagree', async () => {
    const { clean, breaches } = await audit(
      table(
        [
          [9, 4],
          [8, 3],
          [5, 2],
        ],
        [21, 9],
      ),
    );
    expect(clean).toBe(false);
    expect(breaches.some(({ kind }) => kind === 'contradiction')).toBe(true);
  });
});

describe('with the truth, the audit also finds', () => {
  const secret = (shown: ReleasedCell, over: Partial<Cell>): Cell => {
    const { placeKind, place, period, species, group, assay, design } = shown;
    const counts = { tested: 9, resistant: 4, someSurvivors: 0, susceptible: 5, received: 9, testable: 9 };
    return {
      ...{ placeKind, place, period, species, group, assay, design },
      ...{ ...counts, inconclusive: 0, operations: 6, largestOperation: 2, actives: [] },
      ...over,
    };
  };
  const cells = table(
    [
      [9, 4],
      [8, 3],
      [7, 3],
    ],
    [24, 10],
  );
  const whole = { tested: 24, resistant: 10, susceptible: 14, received: 24, testable: 24, operations: 15 };
  const truth = (over: Partial<Cell>) => [
    ...cells.slice(0, 3).map((shown) => secret(shown, whole)),
    secret(cells[3]!, over),
    secret(cells[4]!, { tested: 8, resistant: 3 }),
    secret(cells[5]!, { tested: 7, resistant: 3, susceptible: 4 }),
  ];

  it('nothing in a fair table', async () => {
    const report = await auditRelease({
      cube: cube(cells),
      places: TREE,
      truth: truth({}),
      policy: DEFAULT_POLICY,
    });
    expect(report.breaches).toEqual([]);
  });

  it.each([
    ['two operations', { operations: 2 }],
    ['one operation that sent most', { largestOperation: 6 }],
  ])('a published cell of %s', async (_name, over) => {
    const report = await auditRelease({
      cube: cube(cells),
      places: TREE,
      truth: truth(over),
      policy: DEFAULT_POLICY,
    });
    expect(report.clean).toBe(false);
    expect(report.breaches[0]!.cell).toContain('county 1000');
  });

  it('a count that is not the true one', async () => {
    const report = await auditRelease({
      cube: cube(cells),
      places: TREE,
      truth: truth({ tested: 10, susceptible: 6 }),
      policy: DEFAULT_POLICY,
    });
    expect(report.breaches.some(({ kind }) => kind === 'contradiction')).toBe(true);
  });

  it('wants the policy beside the truth', async () => {
    await expect(auditRelease({ cube: cube(cells), places: TREE, truth: truth({}) })).rejects.toThrow(
      /policy/,
    );
  });
});

describe('a released cube read back from its store', () => {
  it('is refused when a withheld cell carries anything, or a cell comes twice', () => {
    const hidden = cell(REGION, null);
    expect(() => cube([{ ...hidden, actives: ['glyphosate'] }])).toThrow(/withheld but carries/);
    expect(() => cube([hidden, hidden])).toThrow(/given twice/);
    expect(() => cube([cell(REGION, [5, 6])])).toThrow(/impossible/);
  });
});
