import { expect, it } from 'vitest';
import { knox } from '@/lib/stats/space-time/knox';
import { knoxAmongTested } from '@/lib/stats/space-time/knox-among-tested';
import { mantelTest, spaceTimeMantel } from '@/lib/stats/space-time/mantel';

// The output of each seeded routine, frozen: a change here changes published numbers, and belongs into the changelog.
const points = {
  x: [0, 1, 1, 3, 4, 6, 7, 7, 9, 9],
  y: [0, 2, 1, 0, 3, 1, 0, 2, 2, 3],
  time: [1, 1, 2, 2, 3, 2, 4, 3, 5, 4],
  metric: 'plane',
} as const;
const grid = { distances: [1.5, 3], lags: [0, 1] };
const run = { permutations: 999, seed: 42 };
const strata = [0, 0, 0, 0, 0, 1, 1, 1, 1, 1];

it('Knox gives the p that it always gave', () => {
  const { cells } = knox(points, grid, { ...run, strata });
  expect(cells.map(({ p, adjusted }) => `${p} ${adjusted}`).join()).toMatchInlineSnapshot(
    `"1 1,0.486 0.712,0.77 0.948,0.065 0.092"`,
  );
});

it('Knox among the tested gives the p that it always gave', () => {
  const { cells } = knoxAmongTested(points, [1, 0, 1, 1, 0, 0, 1, 0, 0, 1], grid, run);
  expect(cells.map(({ p, adjusted }) => `${p} ${adjusted}`).join()).toMatchInlineSnapshot(
    `"1 1,0.684 0.684,0.353 0.353,0.353 0.353"`,
  );
});

it('Mantel gives the p that it always gave', () => {
  const plain = spaceTimeMantel(points, { ...run, strata });
  const near = spaceTimeMantel(points, { ...run, closeness: { space: 1, time: 1 } });
  const matrices = mantelTest([3, 1, 4, 1, 5, 9], [2, 7, 1, 8, 2, 8], run);
  expect(
    [plain, near, matrices].map(({ pGreater, pLess }) => `${pGreater} ${pLess}`).join(),
  ).toMatchInlineSnapshot(`"0.007 0.995,0.033 0.968,0.409 0.637"`);
});
