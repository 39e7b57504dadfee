import { stringify } from 'csv-stringify/sync';
import { describe, expect, it } from 'vitest';
import { atlasCounties } from '@/lib/geography/atlas';
import { judgeSheet } from '@/lib/intake/judge-sheet';
import { readSheet } from '@/lib/intake/read-sheet';
import { generateScenario } from '@/scripts/scenario/generate-scenario';
import { COLUMNS } from '@/scripts/scenario/sheet';
import { DEMO_DAY, type Size, scenarioRegion } from '@/scripts/scenario/sizes';

const states = (size: Size) => scenarioRegion(size).states.map(({ code }) => code);

/** Judges all sheets of a scenario and returns each record of which intake makes something else than its truth says. */
async function disagreements(size: Size, seed: number): Promise<{ records: number; differing: string[] }> {
  const differing: string[] = [];
  let records = 0;
  for (const { season, rows } of generateScenario({ size, seed, region: scenarioRegion(size) }).sheets) {
    const held = [...rows];
    const text = stringify([
      [...COLUMNS],
      ...held.map(({ cells }) => COLUMNS.map((column) => cells[column])),
    ]);
    const options = { states: states(size), counties: atlasCounties(), asOf: DEMO_DAY };
    for await (const judged of judgeSheet(readSheet(Buffer.from(text)), options)) {
      records++;
      const { truth, fault } = held[judged.record - 1]!;
      const made = [
        judged.outcome,
        judged.season,
        judged.county,
        judged.species,
        judged.group,
        judged.result,
      ];
      const meant = [truth.outcome, truth.season, truth.county, truth.species, truth.group, truth.result];
      const same = truth.outcome === 'accepted' ? made.join() === meant.join() : made[0] === meant[0];
      if (!same) {
        const codes = judged.reasons.map(({ code }) => code).join(' ');
        differing.push(
          `${season} record ${judged.record} (${fault?.kind ?? 'ordinary'}): ${made.join()} for ${meant.join()}: ${codes}`,
        );
      }
    }
  }
  return { records, differing };
}

describe('intake makes of each simulated record what its truth says', () => {
  it.each([
    ['small', 1],
    ['small', 2],
    ['default', 1],
    ['default', 5],
    ['default', 11],
  ] as const)(
    '%s, seed %i: outcome, and where accepted season, county, species, group and result',
    async (size, seed) => {
      const { records, differing } = await disagreements(size, seed);
      expect(records).toBeGreaterThan(2000);
      expect(differing).toEqual([]);
    },
  );
});
