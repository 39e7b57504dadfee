import { describe, expect, it } from 'vitest';
import type { Fact } from '@/lib/cube/types';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { isPrimary } from '@/lib/disclosure/primary';
import { type GateInput, protect } from '@/lib/disclosure/protect';
import type { ReleasedCube } from '@/lib/disclosure/types';
import { type Effort, gateInput, inventFacts, inventTree } from './support/invented';

// Everything here is invented and seeded: three regions, from nearly nothing screened to plenty.
const TREES = [
  inventTree({ states: 2, districts: 2, counties: 3 }),
  inventTree({ states: 3, districts: 2, counties: 4 }),
];
const RUNS = [0.4, 1.5, 6].flatMap((mean) =>
  [1, 2, 3].flatMap((seed) =>
    TREES.map((tree, shape): [string, Effort, (typeof TREES)[number]] => [
      `mean ${mean}, seed ${seed}, region ${shape}`,
      { seed, firstSeason: 2019, seasons: 6, mean, share: [0.02, 0.4, 0.95][seed - 1]!, openSeason: true },
      tree,
    ]),
  ),
);

describe.each(RUNS)('the gate (%s)', (_, effort, tree) => {
  const facts = inventFacts(tree, effort);
  const input = gateInput(facts, tree, effort);

  it('lets out a release whose audit is clean, with the truth inside every interval', async () => {
    const cube = await protect(input);
    const report = await auditRelease({ cube, places: tree, truth: input.cells, policy: DEFAULT_POLICY });
    expect(report.breaches).toEqual([]);
    expect(report.clean).toBe(true);
  });

  it('shows no number of a withheld cell, and withholds every cell that the rule forbids', async () => {
    const cube = await protect(input);
    const truth = truthOf(input);
    for (const cell of cube.cells) {
      const secret = truth.get(cellKeyText(cell))!;
      if (isPrimary(secret, DEFAULT_POLICY)) expect(cell.status).toBe('withheld');
      if (cell.status === 'withheld') {
        expect(cell).toMatchObject({ counts: null, receipt: null, actives: [] });
      } else {
        const { tested, resistant, someSurvivors } = secret;
        expect(cell.counts).toEqual({ tested, resistant, someSurvivors });
      }
    }
  });

  it('has no cell where nothing was screened, and no receipt below the state', async () => {
    const cube = await protect(input);
    const truth = truthOf(input);
    for (const cell of cube.cells) {
      expect(truth.get(cellKeyText(cell))!.tested).toBeGreaterThan(0);
      if (cell.placeKind !== 'region' && cell.placeKind !== 'state') expect(cell.receipt).toBeNull();
    }
  });

  it('does not depend on the order in which cells come', async () => {
    const again = await protect({ ...input, cells: [...input.cells].reverse() });
    expect(JSON.stringify(again)).toBe(JSON.stringify(await protect(input)));
  });

  it('says a status of withheld windows only where together they pass the primary rule', async () => {
    const cube = await protect(input);
    for (const said of cube.statuses) {
      if (said.status !== 'confirmed' && said.status !== 'none confirmed') continue;
      const cells = windowsOf(cube, said);
      const hidden = cells.filter(({ status }) => status === 'withheld');
      const found = cells.some(({ counts }) => counts && counts.resistant > 0);
      if (found || hidden.length === 0) continue;
      const union = input.unionOf({ ...said, periods: hidden.map(({ period }) => period) });
      expect(isPrimary(union, DEFAULT_POLICY)).toBe(false);
      expect(said.status).toBe(union.resistant > 0 ? 'confirmed' : 'none confirmed');
    }
  });

  it('offers a season table only where enough of its cells pass, and then whole', async () => {
    const cube = await protect(input);
    for (const { placeKind, species, group, first } of cube.seasonTables) {
      const window = cube.windows.find((w) => w.first === first)!;
      const wanted = input.cells.filter(
        (cell) =>
          cell.placeKind === placeKind &&
          cell.species === species &&
          cell.group === group &&
          cell.tested > 0 &&
          cell.period.first === cell.period.last &&
          window.first <= cell.period.first &&
          cell.period.last <= window.last,
      );
      const shown = new Set(cube.cells.map(cellKeyText));
      expect(wanted.every((cell) => shown.has(cellKeyText(cell)))).toBe(true);
    }
  });
});

describe('two data sets that differ in withheld values alone', () => {
  it('give the same release, byte by byte', async () => {
    const tree = TREES[0]!;
    let compared = 0;
    for (const seed of [3, 4, 9, 10]) {
      const effort: Effort = { seed, firstSeason: 2019, seasons: 6, mean: 1.2, share: 0.5 };
      const facts = inventFacts(tree, effort);
      const cube = await protect(gateInput(facts, tree, effort));
      for (const other of swaps(facts, cube)) {
        const again = await protect(gateInput(other, tree, effort));
        if (patternOf(again) !== patternOf(cube)) continue;
        expect(JSON.stringify(again)).toBe(JSON.stringify(cube));
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(20);
  });
});

describe('the gate refuses', () => {
  const effort: Effort = { seed: 1, firstSeason: 2019, seasons: 3, mean: 3, share: 0.4 };
  const input = gateInput(inventFacts(TREES[0]!, effort), TREES[0]!, effort);

  it('margins that are not the sum of their parts', async () => {
    const broken = input.cells.map((cell) =>
      cell.placeKind === 'region' && cell.assay === 'whole plant'
        ? { ...cell, tested: cell.tested + 1, susceptible: cell.susceptible + 1 }
        : cell,
    );
    await expect(protect({ ...input, cells: broken })).rejects.toThrow(
      /margins of the cube disagree at region region, 20\d\d–20\d\d, \w+ × group \d+, all designs: susceptible is \d+ but its parts add up to \d+/,
    );
  });

  it('a cell that is not on the ladder, or comes twice', async () => {
    const [cell] = input.cells;
    await expect(protect({ ...input, cells: [...input.cells, cell!] })).rejects.toThrow(/given twice/);
    const stray = { ...cell!, period: { first: 2019, last: 2020 } };
    await expect(protect({ ...input, cells: [...input.cells, stray] })).rejects.toThrow(
      /not on the public ladder/,
    );
  });

  it('a policy looser than the defaults', async () => {
    const policy = { ...DEFAULT_POLICY, minimumTested: 2 };
    await expect(protect({ ...input, policy })).rejects.toThrow(/minimumTested/);
  });
});

function truthOf(input: GateInput) {
  return new Map(input.cells.map((cell) => [cellKeyText(cell), cell]));
}

function windowsOf(
  cube: ReleasedCube,
  { placeKind, place, species, group }: ReleasedCube['statuses'][number],
) {
  return cube.cells.filter(
    (cell) =>
      cell.placeKind === placeKind &&
      cell.place === place &&
      cell.species === species &&
      cell.group === group &&
      cell.assay === 'whole plant' &&
      cell.design === null &&
      cube.windows.some(({ first, last }) => first === cell.period.first && last === cell.period.last),
  );
}

function patternOf({ cells, statuses }: ReleasedCube): string {
  return JSON.stringify([cells.map((cell) => [cellKeyText(cell), cell.status]), statuses]);
}

/**
 * Facts in which one resistant and one susceptible result have changed places between two counties of one district,
 * one season and one design, both withheld in that window: every published margin stays.
 */
function* swaps(facts: readonly Fact[], cube: ReleasedCube): Generator<Fact[]> {
  const hidden = new Set(
    cube.cells
      .filter(
        ({ placeKind, status }) => (placeKind === 'county' || placeKind === 'area') && status === 'withheld',
      )
      .flatMap(({ place, period: { first, last } }) =>
        place.split('+').map((fips) => `${fips}|${first}|${last}`),
      ),
  );
  const isHidden = ({ county, season }: Fact) =>
    cube.windows.some(
      ({ first, last }) => first <= season && season <= last && hidden.has(`${county}|${first}|${last}`),
    );
  const candidates = facts
    .map((fact, i) => ({ fact, i }))
    .filter(({ fact }) => fact.publicShare && fact.assay === 'whole plant' && isHidden(fact));
  for (const a of candidates) {
    if (a.fact.result !== 'resistant') continue;
    const b = candidates.find(
      ({ fact }) =>
        fact.result === 'susceptible' &&
        fact.county !== a.fact.county &&
        fact.county.slice(0, 3) === a.fact.county.slice(0, 3) &&
        fact.season === a.fact.season &&
        fact.design === a.fact.design,
    );
    if (!b) continue;
    const other = [...facts];
    other[a.i] = { ...a.fact, result: 'susceptible' };
    other[b.i] = { ...b.fact, result: 'resistant' };
    yield other;
  }
}
