import { describe, expect, it } from 'vitest';
import type { Cell } from '@/lib/cube/types';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { protect } from '@/lib/disclosure/protect';
import { shownReceipts } from '@/lib/disclosure/receipts';
import { gateInput, inventFacts, inventTree } from './support/invented';

// Invented receipts: two states, one window of two seasons.
const WINDOW = { first: 2019, last: 2020 };
const season = (year: number) => ({ first: year, last: year });
const receipt = (placeKind: 'region' | 'state', place: string, period: Cell['period'], tested = 8): Cell => ({
  ...{ placeKind, place, period, species: 'KCHSC', group: 9, assay: 'whole plant', design: null },
  ...{ received: 10, testable: 9, tested, resistant: 0, someSurvivors: 0, susceptible: tested },
  ...{ inconclusive: 0, operations: 6, largestOperation: 2, actives: [] },
});
const CELLS = [WINDOW, season(2019), season(2020)].flatMap((period) => [
  receipt('region', 'region', period),
  receipt('state', 'A', period),
  receipt('state', 'B', period),
]);
const name = ({ place, period }: Cell) => `${place} ${period.first}–${period.last}`;
const shown = (hidden: string[], cells = CELLS) =>
  [...shownReceipts(cells, [WINDOW], (cell) => !hidden.includes(name(cell)))].map(name).sort();

describe('a receipt is shown', () => {
  it('with every published cell where nothing is withheld', () => {
    expect(shown([])).toEqual(CELLS.map(name).sort());
  });

  it('never where its total would give a hidden one: hiding goes up through region and window', () => {
    expect(shown(['A 2019–2019'])).toEqual(
      ['A 2020–2020', 'B 2019–2019', 'B 2019–2020', 'B 2020–2020', 'region 2020–2020'].sort(),
    );
  });

  it('not beside a place that sent samples of which none was tested', () => {
    const cells = CELLS.map((cell) =>
      name(cell) === 'B 2020–2020' ? receipt('state', 'B', season(2020), 0) : cell,
    );
    const published = [...shownReceipts(cells, [WINDOW], (cell) => cell.tested > 0)].map(name);
    expect(published).not.toContain('region 2020–2020');
    expect(published).toContain('region 2019–2019');
  });
});

describe('a receipt in the wrong place', () => {
  const tree = inventTree({ states: 3, districts: 2, counties: 3 });
  const plan = { seed: 11, firstSeason: 2019, seasons: 3, mean: 3, share: 0.4 };
  const input = gateInput(inventFacts(tree, plan), tree, plan);

  it.each([
    ['a withheld state', 'state', 'withheld'],
    ['a district', 'district', 'published'],
  ] as const)('is found by the audit: beside %s', async (_, placeKind, status) => {
    const cube = await protect(input);
    const audit = (cells: typeof cube.cells) =>
      auditRelease({ cube: { ...cube, cells }, places: tree, truth: input.cells, policy: DEFAULT_POLICY });
    expect((await audit(cube.cells)).breaches).toEqual([]);
    const at = cube.cells.findIndex((cell) => cell.placeKind === placeKind && cell.status === status);
    expect(at).toBeGreaterThanOrEqual(0);
    const found = { received: 3, testable: 3, inconclusive: 0 };
    const planted = cube.cells.map((cell, i) => (i === at ? { ...cell, receipt: found } : cell));
    const { breaches } = await audit(planted);
    expect(breaches).toHaveLength(1);
    expect(breaches[0]!.cell).toContain(cube.cells[at]!.place);
  });
});
