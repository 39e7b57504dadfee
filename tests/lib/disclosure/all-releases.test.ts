import { beforeAll, describe, expect, it } from 'vitest';
import type { Cell } from '@/lib/cube/types';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { feasibleIntervals } from '@/lib/disclosure/audit/feasible-intervals';
import { readRelease } from '@/lib/disclosure/audit/knowledge';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { ladder } from '@/lib/disclosure/ladder';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import type { ReleasedCell, ReleasedCube } from '@/lib/disclosure/types';
import { ladderCells } from '@/lib/release/ladder-cells';
import { Series, sample } from '../release/support/series';
import { inventFacts, inventTree } from './support/invented';

// What a careless second release gives away, planted into copies of real ones. Invented region and results.
const TREE = inventTree({ states: 2, districts: 2, counties: 3 });
const FIRST = 2015;
const FACTS = inventFacts(TREE, { seed: 11, firstSeason: FIRST, seasons: 7, mean: 5, share: 0.35 });
const LATE = Array.from({ length: 9 }, (_, i) =>
  sample(`late ${i}`, { season: 2016, result: i % 2 ? 'resistant' : 'susceptible' }),
);
const series = new Series(TREE, FIRST);

beforeAll(async () => {
  await series.release({ facts: FACTS.filter(({ season }) => season <= 2020), closed: 2020 });
  await series.release({ facts: [...FACTS, ...LATE], closed: 2020 });
  await series.release({ facts: [...FACTS, ...LATE], closed: 2021 });
  expect(series.past[1]!.facts.filter(({ population }) => population.startsWith('late'))).toHaveLength(9);
});

/** Audits a third release, changed or not, beside the first two, changed or not. */
async function audited(
  change: (cube: ReleasedCube, truth: readonly Cell[]) => ReleasedCell[] = ({ cells }) => [...cells],
  changeFirst: (cells: readonly ReleasedCell[], truth: readonly Cell[]) => readonly ReleasedCell[] = (
    cells,
  ) => cells,
) {
  const truthOf = ({ cube, facts }: Series['past'][number]) =>
    ladderCells(facts, ladder({ policy: DEFAULT_POLICY, ...cube }), TREE, cube.areas);
  const truth = truthOf(series.past[2]!);
  const { cube } = series.made[2]!;
  const [first, second] = series.past.slice(0, 2).map((past) => ({ ...past, truth: truthOf(past) }));
  return auditRelease({
    cube: releasedCubeFromStore({ ...cube, cells: change(cube, truth) }),
    places: TREE,
    truth,
    policy: DEFAULT_POLICY,
    earlier: [
      { ...first!, cube: { ...first!.cube, cells: [...changeFirst(first!.cube.cells, first!.truth)] } },
      second!,
    ],
  });
}

const isSame = (a: Omit<Cell, 'operations'> | ReleasedCell, b: ReleasedCell) =>
  a.placeKind === b.placeKind &&
  a.place === b.place &&
  a.period.first === b.period.first &&
  a.period.last === b.period.last &&
  a.assay === b.assay &&
  a.design === b.design;

function opened(cell: ReleasedCell, truth: readonly Cell[]): ReleasedCell {
  const { tested, resistant, someSurvivors } = truth.find((secret) => isSame(secret as Cell, cell))!;
  return { ...cell, status: 'published', counts: { tested, resistant, someSurvivors } };
}

describe('the audit of all releases together', () => {
  it('finds nothing in three as they were made', async () => {
    expect((await audited()).breaches).toEqual([]);
  });

  it('finds a cell that an earlier release withheld and the new one shows', async () => {
    const withheld = series.past[0]!.cube.cells.filter(
      ({ status, assay }) => status === 'withheld' && assay === 'whole plant',
    );
    expect(withheld.length).toBeGreaterThan(3);
    for (const target of withheld.slice(0, 6)) {
      const { breaches } = await audited((cube, truth) =>
        cube.cells.map((cell) => (isSame(cell, target) ? opened(cell, truth) : cell)),
      );
      expect(
        breaches.filter(({ cell, kind }) => kind === 'exact' && cell.includes('as in release 1')).length,
      ).toBeGreaterThan(0);
    }
  });

  it('finds a cell that the new release withholds and an earlier one shows', async () => {
    const target = series.made[0]!.cube.cells.find(
      (cell) =>
        cell.placeKind === 'district' && cell.status === 'published' && cell.period.last > cell.period.first,
    )!;
    const { breaches } = await audited((cube) =>
      cube.cells.map((cell) =>
        isSame(cell, target)
          ? { ...cell, status: 'withheld', counts: null, receipt: null, actives: [] }
          : cell,
      ),
    );
    expect(breaches.some(({ kind, cell }) => kind === 'exact' && cell.includes(target.place))).toBe(true);
  });

  it('finds two releases that are each safe, of which one hides what the other needs hidden', async () => {
    // In the first release another cell of the same sum is hidden than in the third.
    const hidden =
      series.past[0]!.cube.cells.find(
        ({ placeKind, status, period }) =>
          placeKind === 'area' && status === 'withheld' && period.first === FIRST,
      ) ??
      series.past[0]!.cube.cells.find(
        ({ placeKind, status }) => placeKind === 'district' && status === 'withheld',
      )!;
    const { breaches } = await audited(undefined, (cells, truth) =>
      cells.map((cell) => (isSame(cell, hidden) ? opened(cell, truth) : cell)),
    );
    expect(breaches.length).toBeGreaterThan(0);
  });

  it('finds a withheld cell that is gone: an absent cell is a public zero', async () => {
    const target = series.made[0]!.cube.cells.find(
      ({ status, placeKind }) => status === 'withheld' && placeKind === 'district',
    )!;
    const { breaches } = await audited((cube) => cube.cells.filter((cell) => !isSame(cell, target)));
    expect(breaches.length).toBeGreaterThan(0);
  });

  it('finds a count that is another than its batch made it', async () => {
    const { breaches } = await audited((cube) =>
      cube.cells.map((cell) =>
        cell.placeKind === 'region' &&
        cell.counts &&
        cell.period.first === FIRST &&
        cell.period.last === FIRST
          ? { ...cell, counts: { ...cell.counts, tested: cell.counts.tested + 1 } }
          : cell,
      ),
    );
    expect(breaches.some(({ kind }) => kind === 'contradiction')).toBe(true);
  });

  it('wants the truth of this release beside earlier ones', async () => {
    const { cube } = series.made[2]!;
    await expect(
      auditRelease({ cube, places: TREE, earlier: [{ ...series.past[0]!, truth: [] }] }),
    ).rejects.toThrow(/truth/);
  });
});

/**
 * The same attack written out otherwise: a variable for each cell of each release, and each increment between two releases
 * as a published cell that links them. One measure at a time, so that it knows a little less than the audit.
 */
async function writtenOut(measure: 'tested' | 'resistant') {
  const cells: { id: string; value: number | null; least?: number }[] = [];
  const sums: { total: string; parts: string[] }[] = [];
  const asked: { id: string; truth: Cell; settled: boolean }[] = [];
  let before: Map<string, Cell> | null = null;
  for (const past of series.past) {
    const truths = new Map<string, Cell>();
    const truth = ladderCells(
      past.facts,
      ladder({ policy: DEFAULT_POLICY, ...past.cube }),
      TREE,
      past.cube.areas,
    );
    for (const cell of truth) truths.set(cellKeyText(cell), cell);
    const [known] = readRelease(past.cube, TREE);
    const name = (cell: ReleasedCell, at = past.number) => `${at} ${cellKeyText(cell)}`;
    const shownNone = new Set(
      known!.cells.flatMap((cell, i) =>
        cell.counts && (cell.counts.resistant === 0 || cell.counts.resistant === cell.counts.tested)
          ? [i]
          : [],
      ),
    );
    const isSettled = (i: number): boolean =>
      shownNone.has(i) || known!.sums.some(({ total, parts }) => parts.includes(i) && isSettled(total));
    for (const [i, cell] of known!.cells.entries()) {
      const secret = truths.get(cellKeyText(cell))!;
      const isOpen = cell.counts === null;
      cells.push({
        id: name(cell),
        value: cell.counts?.[measure] ?? null,
        least: measure === 'tested' ? 1 : 0,
      });
      if (isOpen && cell.assay === 'whole plant')
        asked.push({ id: name(cell), truth: secret, settled: isSettled(i) });
      const then = before?.get(cellKeyText(cell));
      const wasThere = then && cells.some(({ id }) => id === name(cell, past.number - 1));
      if (!then || !wasThere) continue;
      const by = secret[measure] - then[measure];
      const link = `${name(cell)} since`;
      cells.push({ id: link, value: Math.abs(by) });
      const [more, less] = [name(cell), name(cell, past.number - 1)];
      sums.push(by >= 0 ? { total: more, parts: [less, link] } : { total: less, parts: [more, link] });
    }
    for (const { total, parts } of known!.sums)
      sums.push({ total: name(known!.cells[total]!), parts: parts.map((part) => name(known!.cells[part]!)) });
    before = truths;
  }
  return { asked, found: await feasibleIntervals(cells, sums) };
}

describe('the attack written out with a variable for each release and each increment', () => {
  it('finds no withheld count exactly, in any of the three, and the truth in every interval (P1, P2)', async () => {
    for (const measure of ['tested', 'resistant'] as const) {
      const { asked, found } = await writtenOut(measure);
      expect(asked.length).toBeGreaterThan(50);
      for (const { id, truth, settled } of asked) {
        const [low, high] = found.get(id)!;
        expect([id, low <= truth[measure] && truth[measure] <= high]).toEqual([id, true]);
        if (measure === 'tested' || !settled) expect([id, high > low]).toEqual([id, true]);
        const few = truth.tested < DEFAULT_POLICY.minimumTested;
        if (measure === 'tested' && few)
          expect([id, high >= DEFAULT_POLICY.minimumTested]).toEqual([id, true]);
        if (measure === 'resistant' && !settled && few) expect([id, low, high >= 1]).toEqual([id, 0, true]);
      }
    }
  });
});
