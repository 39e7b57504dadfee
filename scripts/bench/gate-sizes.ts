import type { Cell } from '@/lib/cube/types';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { isPrimary } from '@/lib/disclosure/primary';
import { loadSolver } from '@/lib/disclosure/solver';
import type { ReleasedCube } from '@/lib/disclosure/types';
import type { Region } from '@/lib/geography/types';
import { gateOnly } from '@/lib/jobs/gate-only';
import { guard } from '@/lib/release/guard';
import type { Benchmark } from '../bench';
import { scenarioRegion } from '../scenario/sizes';
import { type MadeEffort, madeFacts } from '../support/made-facts';
import { plainTable } from '../support/plain-table';
import { type Steps, startSteps } from '../support/steps';
import { leastWithheld } from './least-withheld';

const FIRST = 2013;

/** How unevenly counties are screened where about as many of their cells hold fewer than five as in the design's trial. */
const UNEVEN = 1;

/** What one pair costs at the sizes of the specification, in time and in cells. */
export const gateSizes: Benchmark = {
  about:
    'Gate, audit and insider pass for one invented weed and group: 100 counties and all of the basin with 10 seasons at 8 and 20 populations a county and season, screened about evenly and unevenly, and every county of the states with 20 seasons',
  async run() {
    const steps = startSteps();
    const basin = scenarioRegion('default');
    const hundred = {
      ...basin,
      counties: basin.counties.filter(({ state }) => state === 'KS').slice(0, 100),
    };
    for (const [counties, region] of [
      ['100 counties', firstCounties(hundred, basin)],
      ['328 counties', basin],
    ] as const) {
      for (const mean of [8, 20]) {
        const name = `${counties} × 10 seasons, mean ${mean}`;
        for (const [how, uneven] of [
          ['', undefined],
          [', unevenly', UNEVEN],
        ] as const) {
          const pair = madePair(`${name}${how}`, region, { mean, seasons: 10, uneven });
          await timePair(steps, pair);
          await benchPlainTable(steps, pair);
        }
      }
    }
    const every = 'every county × 20 seasons, mean 0.5';
    await timePair(steps, madePair(every, scenarioRegion('national'), { mean: 0.5, seasons: 20 }));
    return [...steps.done];
  },
};

/** The region cut to some counties, with the neighbours that are left. */
function firstCounties(part: Region, whole: Region): Region {
  const kept = new Map(part.counties.map(({ fips }, i) => [fips, i]));
  const neighbours = part.counties.map(({ fips }) => {
    const at = whole.counties.findIndex((county) => county.fips === fips);
    return whole.neighbours[at]!.flatMap((other) => kept.get(whole.counties[other]!.fips) ?? []);
  });
  const districts = whole.districts
    .map((district) => ({ ...district, counties: district.counties.filter((fips) => kept.has(fips)) }))
    .filter(({ counties }) => counties.length > 0);
  return { ...part, neighbours, districts };
}

type Effort = Pick<MadeEffort, 'mean' | 'seasons' | 'uneven'>;

type MadePair = ReturnType<typeof madePair>;

function madePair(name: string, region: Region, effort: Effort) {
  const facts = madeFacts(region.counties, { ...effort, seed: 1, firstSeason: FIRST, share: 0.3 });
  const closedSeasons = Array.from({ length: effort.seasons }, (_, s) => FIRST + s);
  return { name, region, facts, closedSeasons };
}

async function timePair(steps: Steps, { name, region, facts, closedSeasons }: MadePair): Promise<void> {
  const question = { policy: DEFAULT_POLICY, firstSeason: FIRST, closedSeasons, openSeason: null };
  await steps.run(`${name}: protect, audit, insiders`, async (detail) => {
    const before = process.cpuUsage();
    const { cube, audit } = await guard({ facts, region, question, keptAreas: [] });
    const { user, system } = process.cpuUsage(before);
    const clean = audit.breaches.length === 0 ? 'clean' : `${audit.breaches.length} breaches`;
    detail(
      `${facts.length} results, ${cube.cells.length + cube.further.length} cells, ${audit.programs} programs, ${clean}, ${((user + system) / 1e6).toFixed(1)} s of processor time`,
    );
  });
  await steps.run(`${name}: what the gate withholds`, async (detail) => {
    const gate = await gateOnly({ facts, region, policy: DEFAULT_POLICY, closedSeasons });
    const least = leastWithheld(await loadSolver(), gate, region, closedSeasons);
    detail(
      `${tables(gate.cells, gate.cube)}; any gate that shows districts and states must withhold at least ${least} more of counties`,
    );
  });
}

async function benchPlainTable(steps: Steps, { name, ...pair }: MadePair): Promise<void> {
  await steps.run(`${name}: a plain table of counties and seasons`, async (detail) => {
    const { gate, region: flat, cells, fail, more } = await plainTable(pair);
    const least = leastWithheld(await loadSolver(), gate, flat, pair.closedSeasons);
    detail(
      `${cells} cells, ${fail} fail, ${more} more withheld (${((100 * more) / fail).toFixed(1)} %; any gate at least ${least})`,
    );
  });
}

/** By table: cells, those that fail the rule, and those withheld for the sake of these. */
function tables(cells: readonly Cell[], cube: ReleasedCube): string {
  const looks = new Map([...cube.cells, ...cube.further].map((cell) => [cellKeyText(cell), cell.status]));
  const found = new Map<string, { all: number; primary: number; others: number }>();
  for (const cell of cells) {
    const look = looks.get(cellKeyText(cell));
    if (cell.tested === 0 || look === undefined || cell.assay !== 'whole plant') continue;
    const { placeKind, period, design, part } = cell;
    const length = period.first === period.last ? 'season' : 'window';
    const by = part ? ` by ${part.of}` : design === null ? '' : ' by design';
    const table = `${placeKind} × ${length}${by}`;
    const sum = found.get(table) ?? { all: 0, primary: 0, others: 0 };
    found.set(table, sum);
    sum.all += 1;
    if (isPrimary(cell, DEFAULT_POLICY)) sum.primary += 1;
    else if (look === 'withheld') sum.others += 1;
  }
  return [...found]
    .map(
      ([table, { all, primary, others }]) =>
        `${table}: ${all} cells, ${primary} fail, ${others} more withheld`,
    )
    .join('; ');
}
