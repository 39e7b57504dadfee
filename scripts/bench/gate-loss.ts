import type { Cell, Fact } from '@/lib/cube/types';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { isPrimary } from '@/lib/disclosure/primary';
import { fixedWindows } from '@/lib/disclosure/windows';
import type { Region } from '@/lib/geography/types';
import { type GateOnly, gateOnly } from '@/lib/jobs/gate-only';
import { inAll, publishedShares } from '@/lib/jobs/published-shares';
import { ladderCells } from '@/lib/release/ladder-cells';
import type { Season } from '@/lib/vocabulary/terms';
import type { Benchmark } from '../bench';
import type { Size } from '../scenario/sizes';
import { countyByCounty } from '../support/county-by-county';
import { scenarioFacts } from '../support/scenario-facts';
import { type Steps, startSteps } from '../support/steps';

/** Figures of what the gate costs; they stand in the lines that are printed while it runs. */
export const gateLoss: Benchmark = {
  about:
    'What the gate costs on the simulated programmes (small: 66 counties, 120 populations a season; default: the demonstration)',
  async run() {
    const steps = startSteps();
    await benchGateLoss(steps);
    return [...steps.done];
  },
};

/**
 * What the gate costs, on the simulated programmes: the share of cells and of screened populations inside published
 * numbers of county or area × window, by the gate with areas and by simpler ways, and of the coarser tables. Simpler ways
 * are measured for comparison alone: the first of them can be undone by subtraction.
 */
export async function benchGateLoss(
  steps: Steps,
  sizes: readonly Size[] = ['small', 'default'],
): Promise<void> {
  for (const size of sizes) {
    const ground = await steps.run(`${size}: simulated facts`, () => groundOf(size));
    const counties = countyCells(ground);
    const primary = (cell: Cell) => isPrimary(cell, DEFAULT_POLICY);
    await steps.run(`${size}: counties, primary rule alone (not safe)`, (detail) =>
      detail(countyWords(counties, primary)),
    );
    await steps.run(
      `${size}: counties, the whole row of a county withheld with any of its windows`,
      (detail) => detail(countyWords(counties, wholeRow(counties, primary))),
    );
    await steps.run(`${size}: counties, complementary cells withheld`, async (detail) =>
      detail(gateWords(await gateOnly({ ...ground, areas: countyByCounty(ground.facts) }), 1)),
    );
    await steps.run(`${size}: areas, complementary cells withheld (the gate)`, async (detail) => {
      detail(gateWords(await gateOnly(ground)));
    });
  }
}

interface Ground {
  facts: Fact[];
  region: Region;
  policy: typeof DEFAULT_POLICY;
  closedSeasons: Season[];
}

function groundOf(size: Size): Ground {
  const { facts, region, closedSeasons } = scenarioFacts(size, 1);
  return { facts: facts.filter((fact) => fact.publicShare), region, policy: DEFAULT_POLICY, closedSeasons };
}

/** Whole-plant cells of county × window with something tested. */
function countyCells({ facts, region, policy, closedSeasons }: Ground): Cell[] {
  const periods = fixedWindows(closedSeasons[0]!, closedSeasons, policy.windowLength);
  const table = { placeKind: 'county', assays: ['whole plant'], joined: false, byDesign: false } as const;
  const cells = ladderCells(facts, [{ ...table, assays: ['whole plant'], periods }], region, []);
  return cells.filter(({ tested }) => tested > 0);
}

/** A row is a county and a pair over all windows: where one of its cells fails, none of it is shown. */
function wholeRow(cells: readonly Cell[], fails: (cell: Cell) => boolean): (cell: Cell) => boolean {
  const rowOf = ({ place, species, group }: Cell) => `${place}|${species}|${group}`;
  const failing = new Set(cells.filter(fails).map(rowOf));
  return (cell) => failing.has(rowOf(cell));
}

function countyWords(cells: readonly Cell[], isWithheld: (cell: Cell) => boolean): string {
  const shown = cells.filter((cell) => !isWithheld(cell));
  const populations = (some: readonly Cell[]) => some.reduce((sum, { tested }) => sum + tested, 0);
  return words('county × window', cells.length, shown.length, populations(cells), populations(shown));
}

/** `levels`: how many tables, the finest first. */
function gateWords(gate: GateOnly, levels = 5): string {
  return inAll(publishedShares(gate))
    .slice(0, levels)
    .map((line) => {
      const { level, cells, published, populations, inside, withheld, primary } = line;
      return `${words(level, cells, published, populations, inside)}, ${withheld - primary} cells withheld only to protect others`;
    })
    .join('; ');
}

function words(table: string, cells: number, shown: number, populations: number, inside: number): string {
  return `${table}: ${shown} of ${cells} cells (${percent(shown, cells)}), ${inside} of ${populations} populations (${percent(inside, populations)})`;
}

function percent(some: number, all: number): string {
  return all === 0 ? '–' : `${((100 * some) / all).toFixed(1)} %`;
}
