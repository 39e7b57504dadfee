import { createHash } from 'node:crypto';
import { generateScenario, type Scenario } from '@/scripts/scenario/generate-scenario';
import { COLUMNS, type ScenarioRow } from '@/scripts/scenario/sheet';
import { type Size, scenarioRegion } from '@/scripts/scenario/sizes';
import { type Counts, tallyScenario } from '@/scripts/scenario/tally';

export interface ReadScenario {
  scenario: Scenario;
  rows: ScenarioRow[];
  counts: Counts;
}

/** Generates a scenario and holds all its records, which a test may. */
export function readScenario(size: Size, seed: number): ReadScenario {
  const scenario = generateScenario({ size, seed, region: scenarioRegion(size) });
  const tally = tallyScenario();
  const rows: ScenarioRow[] = [];
  for (const sheet of scenario.sheets) {
    for (const row of sheet.rows) {
      tally.add(row);
      rows.push(row);
    }
  }
  return { scenario, rows, counts: tally.counts() };
}

/** First record of each population. */
export function populationsOf(rows: readonly ScenarioRow[]): ScenarioRow[] {
  const seen = new Set<string>();
  return rows.filter(({ cells }) => {
    if (seen.has(cells['Sample #'])) return false;
    seen.add(cells['Sample #']);
    return true;
  });
}

/** SHA-256 of all cells in order. */
export function digest(rows: Iterable<ScenarioRow>): string {
  const hash = createHash('sha256');
  for (const { cells } of rows) hash.update(`${COLUMNS.map((column) => cells[column]).join('\u001f')}\n`);
  return hash.digest('hex');
}

/** Half width of the binomial interval that holds an honest share in all but about one of 16,000 draws (4 s.e.). */
export function fourErrors(share: number, n: number): number {
  return 4 * Math.sqrt((share * (1 - share)) / n);
}
