import { describe, expect, it } from 'vitest';
import type { Fact } from '@/lib/cube/types';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { isPrimary } from '@/lib/disclosure/primary';
import { gateOnly } from '@/lib/jobs/gate-only';
import { scenarioRegion } from '@/scripts/scenario/sizes';
import { madeFacts } from '@/scripts/support/made-facts';
import { plainTable } from '@/scripts/support/plain-table';

// Invented results over the 66 counties of the scenario's small region, screened as unevenly as real counties are: where
// the standard deviation of log effort is 1, about as many cells hold fewer than five as in the design's trial. Full
// size: `npm run bench -- gate-sizes`.
const region = scenarioRegion('small');
const closedSeasons = Array.from({ length: 9 }, (_, s) => 2016 + s);
const invented = (mean: number, seed: number, uneven?: number): Fact[] =>
  madeFacts(region.counties, { seed, firstSeason: 2016, seasons: 9, mean, share: 0.3, uneven });

// The promise (P7) of the design.
describe('complementary cells', () => {
  it.each([
    [8, 0.15],
    [20, 0.5],
  ] as const)(
    'of a plain table with a mean of %i a cell are at most %f of those that fail the rule',
    async (mean, most) => {
      let [fail, more] = [0, 0];
      for (const seed of [1, 2, 3]) {
        const table = await plainTable({ facts: invented(mean, seed, 1), region, closedSeasons });
        fail += table.fail;
        more += table.more;
      }
      expect(fail).toBeGreaterThan(100);
      expect(more).toBeGreaterThan(0);
      expect(more / fail).toBeLessThanOrEqual(most);
    },
    120_000,
  );

  it.each([
    [8, undefined],
    [20, undefined],
    [8, 1],
    [20, 1],
  ])(
    'are no state cell and at most one in a hundred of district × season (mean %i, uneven %s)',
    async (mean, uneven) => {
      const facts = invented(mean, 4, uneven);
      const { cells, cube } = await gateOnly({ facts, region, policy: DEFAULT_POLICY, closedSeasons });
      const looks = new Map(cube.cells.map((cell) => [cellKeyText(cell), cell.status]));
      const more = (kind: string) =>
        cells.filter(
          (cell) =>
            cell.placeKind === kind &&
            !isPrimary(cell, DEFAULT_POLICY) &&
            looks.get(cellKeyText(cell)) === 'withheld',
        );
      expect(more('state')).toEqual([]);
      const bySeason = cells.filter(
        (cell) =>
          cell.placeKind === 'district' &&
          cell.period.first === cell.period.last &&
          looks.has(cellKeyText(cell)),
      );
      expect(bySeason.length).toBeGreaterThan(0);
      const seasonal = more('district').filter(({ period }) => period.first === period.last);
      expect(seasonal.length).toBeLessThanOrEqual(bySeason.length / 100);
    },
    60_000,
  );
});
