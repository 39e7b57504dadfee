import { createWriteStream } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { stringify } from 'csv-stringify';
import type { Outcome, Season } from '@/lib/vocabulary/terms';
import type { Scenario } from './generate-scenario';
import { readmeOf } from './readme';
import { COLUMNS, type Fault, type ScenarioRow } from './sheet';
import { type Tally, tallyScenario } from './tally';

export interface WrittenScenario {
  /** Paths of the sheets, by season ascending. */
  sheets: string[];
  tally: Tally;
}

/**
 * Writes `simulated-SEASON.csv` for each season, `truth.json` and `README.md` into a folder, which is made where it
 * is missing. Records stream: none is held after it is written. Files of the same name are replaced.
 *
 * @param onSheet told after each sheet, for progress
 */
export async function writeScenario(
  scenario: Scenario,
  folder: string,
  onSheet: (season: Season, rows: number) => void = () => {},
): Promise<WrittenScenario> {
  await mkdir(folder, { recursive: true });
  const tally = tallyScenario();
  const faults: AlteredRecord[] = [];
  const sheets: string[] = [];
  for (const { season, rows } of scenario.sheets) {
    const file = join(folder, `simulated-${season}.csv`);
    let records = 0;
    const counted = function* () {
      for (const row of rows) {
        records++;
        tally.add(row);
        if (row.fault) faults.push({ season, record: records, ...altered(row, row.fault) });
        yield valuesOf(row);
      }
    };
    await pipeline(
      Readable.from(counted()),
      stringify({ header: true, columns: [...COLUMNS] }),
      createWriteStream(file),
    );
    sheets.push(file);
    onSheet(season, records);
  }
  const truth = { ...scenario.truth, counts: tally.counts(), faults };
  await writeFile(join(folder, 'truth.json'), `${JSON.stringify(truth, null, 1)}\n`);
  await writeFile(join(folder, 'README.md'), readmeOf(scenario.truth));
  return { sheets, tally };
}

interface AlteredRecord extends Fault {
  season: Season;
  /** Place in its sheet, from 1, without the heading. */
  record: number;
  sample: string;
  /** What intake should make of it. */
  expected: Outcome;
}

function altered({ cells, truth }: ScenarioRow, fault: Fault): Omit<AlteredRecord, 'season' | 'record'> {
  return { sample: cells['Sample #'], expected: truth.outcome, ...fault };
}

function valuesOf({ cells }: ScenarioRow): string[] {
  return COLUMNS.map((column) => cells[column]);
}
