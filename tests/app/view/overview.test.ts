import { describe, expect, it } from 'vitest';
import { type OverviewInput, overview } from '@/app/view/overview';
import type { ReleasedCell } from '@/lib/disclosure/types';
import type { FirstDetection } from '@/lib/findings/types';
import { countiesOf } from '@/lib/geography/areas';
import type { ReleaseHead } from '@/lib/release/types';
import type { Pair } from '@/lib/vocabulary/terms';
import { inventedRegion, inventedRelease } from '../invented-release';

// The invented release, and cells that are invented here.
const { draft } = inventedRelease();
const head: ReleaseHead = { ...draft.head, number: 1, files: [] };
const { counties } = inventedRegion();
const KINDS = ['region', 'area', 'county'];
const whole: OverviewInput = {
  head,
  counties: counties.length,
  cells: draft.cube.cells.filter(({ placeKind, part }) => KINDS.includes(placeKind) && part === undefined),
  findings: draft.findings,
  before: null,
};
const told = overview(whole)!;

const KOCHIA: Pair = { species: 'KCHSC', group: 9 };
const cell = (over: Partial<ReleasedCell>, counts: [number, number] | null): ReleasedCell => ({
  ...{ placeKind: 'region', place: 'region', period: { first: 2022, last: 2024 }, ...KOCHIA },
  ...{ assay: 'whole plant', design: null, receipt: null, actives: [], unfinished: false },
  status: counts ? 'published' : 'withheld',
  counts: counts && { tested: counts[0], resistant: counts[1], someSurvivors: 0 },
  ...over,
});
const of = (cells: ReleasedCell[], over: Partial<OverviewInput> = {}) =>
  overview({
    ...{ head: { ...head, pairs: [KOCHIA] }, counties: 10, cells, findings: [], before: null },
    ...over,
  })!;
const season = (year: number) => ({ first: year, last: year });

describe('the overview of a release', () => {
  it('counts results season by season, so that nothing counts twice because windows hold it too', () => {
    const single = whole.cells.filter(
      ({ placeKind, period }) => placeKind === 'region' && period.first === period.last,
    );
    expect(told.results).toEqual({
      count: single.reduce((sum, { counts }) => sum + counts!.tested, 0),
      complete: true,
    });
    const some = of([cell({ period: season(2023) }, [12, 3]), cell({ period: season(2024) }, null)]);
    expect(some.results).toEqual({ count: 12, complete: false });
  });

  it('counts a county once, shown, withheld or joined to others', () => {
    const cells = [
      cell({ placeKind: 'county', place: '20001' }, [5, 0]),
      cell({ placeKind: 'county', place: '20001', period: { first: 2019, last: 2021 } }, null),
      cell({ placeKind: 'area', place: '20001+20003' }, [9, 1]),
    ];
    expect(of(cells).counties).toEqual({ screened: 2, all: 10 });
    const screened = counties.filter(({ fips }) =>
      whole.cells.some(({ placeKind, place }) => placeKind !== 'region' && countiesOf(place).includes(fips)),
    );
    expect(told.counties.screened).toBe(screened.length);
  });

  it('calls a pair clean only where all of the newest window is public and without a find', () => {
    const seasons = (last: [number, number] | null) =>
      of([2022, 2023, 2024].map((year) => cell({ period: season(year) }, year === 2024 ? last : [8, 0])));
    expect(seasons([8, 0])).toMatchObject({ clean: [KOCHIA], confirmed: [] });
    expect(seasons(null)).toMatchObject({ clean: [], confirmed: [] });
    expect(seasons([8, 1])).toMatchObject({ clean: [], confirmed: [KOCHIA] });
    // The window's own cell goes before its seasons, and what came earlier does not count.
    expect(of([cell({}, [24, 1]), cell({ period: season(2023) }, [8, 0])]).confirmed).toEqual([KOCHIA]);
    expect(of([cell({}, [24, 0]), cell({ period: season(2020) }, [8, 4])]).clean).toEqual([KOCHIA]);
  });

  it('says what is widest of ten places or more with public numbers, by their part and not by their number', () => {
    const places = (group: number, found: number, all: number) =>
      Array.from({ length: all }, (_, i) =>
        cell({ placeKind: 'county', place: String(20001 + 2 * i), group }, [6, i < found ? 1 : 0]),
      );
    const pairs = [9, 27, 10].map((group) => ({ species: 'KCHSC', group }));
    const given = { head: { ...head, pairs } };
    const cells = [...places(9, 12, 20), ...places(27, 8, 10), ...places(10, 9, 9)];
    expect(of(cells, given).widest).toEqual({ species: 'KCHSC', group: 27, confirmed: 8, places: 10 });
    expect(of(places(10, 9, 9), given).widest).toBeNull();
  });

  it('takes arrivals of the newest window after a clean record, and no first test, for news', () => {
    const find = (over: Partial<FirstDetection>): FirstDetection => ({
      ...{ kind: 'first detection', ...KOCHIA, placeKind: 'county', place: '20001' },
      ...{ period: { first: 2022, last: 2024 }, how: 'new after a clean record' },
      ...{ lastClean: { first: 2019, last: 2021 }, arrival: { after: 2021, by: 2024 }, sentence: '' },
      ...over,
    });
    const news = find({});
    const old = find({ period: { first: 2019, last: 2021 }, lastClean: null });
    const first = find({ how: 'found at first test', lastClean: null, arrival: null });
    expect(of([], { findings: [first, news, old] }).arrived).toEqual([{ ...KOCHIA, detections: [news] }]);
    expect(of([], { findings: [first, old] }).arrived).toEqual([]);
  });

  it('compares verdicts with the release before, and with none where it is the first', () => {
    expect(told.verdicts).toBeNull();
    const before = { number: 1, findings: draft.findings };
    expect(overview({ ...whole, before })!.verdicts).toEqual({ since: 1, changed: [] });
  });

  it('is none while no window is closed', () => {
    expect(overview({ ...whole, head: { ...head, windows: [] } })).toBeNull();
  });
});
