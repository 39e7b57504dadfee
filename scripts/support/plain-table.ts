import type { Fact } from '@/lib/cube/types';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { isPrimary } from '@/lib/disclosure/primary';
import type { Region } from '@/lib/geography/types';
import { type GateOnly, gateOnly } from '@/lib/jobs/gate-only';
import type { Season } from '@/lib/vocabulary/terms';
import { countyByCounty } from './county-by-county';

export interface PlainTable {
  gate: GateOnly;
  /** The region without its districts. */
  region: Region;
  /** Counties × seasons with something tested. */
  cells: number;
  /** Those that fail the rule. */
  fail: number;
  /** Those withheld only for the sake of others, totals of counties over all seasons included. */
  more: number;
}

/**
 * What the gate withholds of one pair's plain table of counties × seasons, with the totals of states by season and of
 * counties over all seasons, and neither districts, windows nor areas beside it. The gate publishes no such table of a
 * programme that screens unevenly: it stands here because the design's promise on complementary cells was tried on it.
 */
export async function plainTable(input: {
  facts: readonly Fact[];
  region: Region;
  closedSeasons: readonly Season[];
}): Promise<PlainTable> {
  const { facts, closedSeasons } = input;
  const counties = input.region.counties.map((county) => ({ ...county, district: null }));
  const region = { ...input.region, counties, districts: [] };
  const policy = { ...DEFAULT_POLICY, windowLength: closedSeasons.length, countySeasonShare: 0.01 };
  const areas = countyByCounty(facts);
  const gate = await gateOnly({ facts, region, policy, closedSeasons, areas });
  const looks = new Map(gate.cube.cells.map((cell) => [cellKeyText(cell), cell.status]));
  const table: PlainTable = { gate, region, cells: 0, fail: 0, more: 0 };
  for (const cell of gate.cells) {
    if (cell.placeKind !== 'county' || cell.tested === 0) continue;
    const fails = isPrimary(cell, policy);
    if (!fails && looks.get(cellKeyText(cell)) === 'withheld') table.more++;
    if (cell.period.first !== cell.period.last) continue;
    table.cells++;
    if (fails) table.fail++;
  }
  return table;
}
