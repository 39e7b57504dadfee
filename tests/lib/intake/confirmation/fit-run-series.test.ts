import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type RunTray, runSeries } from '@/lib/intake/confirmation/fit-run-series';

// All trays here are invented.
const TRAY: RunTray = {
  check: null,
  population: 'p1',
  sample: 'T-1',
  season: 2026,
  species: 'AMATU',
  group: 9,
  actives: ['glyphosate'],
  assay: 'whole plant',
  dose: 1,
  treated: 40,
  alive: 20,
};
const tray = (over: Partial<RunTray>): RunTray => Object.freeze({ ...TRAY, ...over });
const doses = (over: Partial<RunTray>) => [0.5, 1, 2].map((dose) => tray({ ...over, dose }));
const NO_POPULATION = { population: null, sample: null, season: null };
const check = (over: Partial<RunTray> = {}) =>
  tray({ ...NO_POPULATION, check: 'susceptible', dose: 0.5, alive: 1, ...over });
const untreated = (over: Partial<RunTray> = {}) =>
  tray({ ...NO_POPULATION, check: 'untreated', dose: null, group: null, actives: [], alive: 39, ...over });

describe('dose series of a run', () => {
  it('are sorted by species, herbicide and assay, with the checks beside them', () => {
    const [glyphosate, dicamba, ...others] = runSeries([
      ...doses({}),
      ...doses({ population: 'p2', sample: 'T-2' }),
      ...doses({ group: 4, actives: ['dicamba'] }),
      check(),
      check({ dose: 0.25 }),
      check({ group: 4, actives: ['dicamba'] }),
      untreated(),
      tray({ ...NO_POPULATION, check: 'resistant' }),
    ]);
    expect(others).toEqual([]);
    expect(glyphosate).toMatchObject({ group: 9, series: [{ sample: 'T-1' }, { sample: 'T-2' }] });
    expect(glyphosate!.series[0]!.trays).toEqual([
      { dose: 0.5, treated: 40, alive: 20 },
      { dose: 1, treated: 40, alive: 20 },
      { dose: 2, treated: 40, alive: 20 },
    ]);
    expect(glyphosate!.check.map(({ dose }) => dose)).toEqual([0.5, 0.25]);
    expect(dicamba!.check).toHaveLength(1);
    for (const set of [glyphosate, dicamba]) expect(set!.untreated).toEqual([{ treated: 40, alive: 39 }]);
  });

  it('of one sample number in two seasons are two', () => {
    const [set] = runSeries([...doses({}), ...doses({ population: 'p9', season: 2025 })]);
    expect(set!.series.map(({ season, trays }) => [season, trays.length])).toEqual([
      [2026, 3],
      [2025, 3],
    ]);
  });

  it('are none where only checks were sprayed', () => {
    expect(runSeries([check(), untreated()])).toEqual([]);
    expect(runSeries([])).toEqual([]);
  });
});

describe('a check that leaves something blank', () => {
  const BLANK: Partial<RunTray>[] = [
    { species: null },
    { group: null, actives: [] },
    { actives: [] },
    { species: null, group: null, actives: [] },
  ];

  it.each(BLANK)('stands beside the only series of its run: %o', (blank) => {
    expect(runSeries([...doses({}), check(blank)])[0]!.check).toHaveLength(1);
  });

  it('stands beside none of several weeds or herbicides', () => {
    const weeds = runSeries([
      ...doses({}),
      ...doses({ species: 'KCHSC' }),
      check({ species: null }),
      untreated({ species: null }),
    ]);
    expect(weeds.map((set) => [set.check.length, set.untreated.length])).toEqual([
      [0, 0],
      [0, 0],
    ]);
    const herbicides = runSeries([
      ...doses({}),
      ...doses({ group: 4, actives: ['dicamba'] }),
      check({ group: null, actives: [] }),
      // Of group 4 only one active was sprayed.
      check({ group: 4, actives: [] }),
    ]);
    expect(herbicides.map((set) => set.check.length)).toEqual([0, 1]);
    const actives = runSeries([
      ...doses({ group: 4, actives: ['dicamba'] }),
      ...doses({ group: 4, actives: ['2,4-D'] }),
      check({ group: 4, actives: [] }),
    ]);
    expect(actives.map((set) => set.check.length)).toEqual([0, 0]);
  });

  it('never stands beside another weed, herbicide or assay than it names', () => {
    for (const over of [
      { species: 'KCHSC' },
      { group: 4, actives: ['dicamba'] },
      { actives: ['glufosinate'] },
      { assay: 'soil-applied' as const },
    ]) {
      expect(runSeries([...doses({}), check(over)])[0]!.check).toEqual([]);
    }
  });
});

describe('any records', () => {
  const any = fc.record({
    check: fc.constantFrom(null, null, 'susceptible' as const, 'untreated' as const),
    population: fc.constantFrom('p1', 'p2', 'p3'),
    species: fc.constantFrom('AMATU', 'KCHSC', null),
    group: fc.constantFrom(9, 4, null),
    dose: fc.constantFrom(null, 0.5, 1, 2),
  });

  it('each tray of a population is in one series, whatever the order of the checks', () => {
    fc.assert(
      fc.property(fc.array(any, { maxLength: 20 }), (records) => {
        const trays = records.map((over) => tray({ ...over, ...(over.check && NO_POPULATION) }));
        const sets = runSeries(trays);
        const sprayed = trays.filter((t) => !t.check && t.species && t.group !== null && t.dose !== null);
        const placed = sets.flatMap(({ series }) => series.flatMap((one) => one.trays));
        expect(placed).toHaveLength(sprayed.length);
        const turned = [...trays.filter((t) => t.check).toReversed(), ...trays.filter((t) => !t.check)];
        const sizes = (all: typeof sets) =>
          all.map(({ series, check, untreated: none }) => [series.length, check.length, none.length]);
        expect(sizes(runSeries(turned))).toEqual(sizes(sets));
      }),
      { seed: 1 },
    );
  });
});
