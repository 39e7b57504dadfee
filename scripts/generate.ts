/**
 * `npm run generate`: writes the simulated programme's sheets.
 */
import { generateScenario } from './scenario/generate-scenario';
import { SIZES, type Size, scenarioRegion } from './scenario/sizes';
import { writeScenario } from './scenario/write-scenario';
import { runCommand, UsageError } from './support/command';
import { readOptions } from './support/options';

const USAGE = `npm run generate -- --size ${SIZES.join('|')} --seed N --out FOLDER
  Writes simulated laboratory sheets, one CSV file a season, with the truth that was planted in them.
  Without --size: default. Without --seed: 1.`;

await runCommand(async () => {
  const { size, seed, out } = readArguments();
  const started = performance.now();
  const scenario = generateScenario({ size, seed, region: scenarioRegion(size) });
  const { tally } = await writeScenario(scenario, out, (season, rows) =>
    console.log(`${season}  ${rows.toLocaleString('en')} records`),
  );
  const { records, populations, operations, counties } = tally.counts();
  console.log(
    `${records.toLocaleString('en')} simulated records of ${populations.toLocaleString('en')} populations from ` +
      `${operations.toLocaleString('en')} operations in ${counties.toLocaleString('en')} counties, ` +
      `in ${((performance.now() - started) / 1000).toFixed(1)} s: ${out}`,
  );
  return 0;
});

function readArguments(): { size: Size; seed: number; out: string } {
  const refuse = (problem: string): never => {
    throw new UsageError(`${problem}\n\n${USAGE}`);
  };
  const { values } = readOptions(USAGE, {
    size: { type: 'string' },
    seed: { type: 'string' },
    out: { type: 'string' },
  });
  const size =
    SIZES.find((known) => known === (values.size ?? 'default')) ??
    refuse(`--size is one of ${SIZES.join(', ')}, not “${values.size}”.`);
  const seed = values.seed ?? '1';
  if (!/^\d{1,15}$/.test(seed)) refuse(`--seed is a whole number, not “${seed}”.`);
  const out = values.out || refuse('--out FOLDER is missing: where shall the sheets go?');
  return { size, seed: Number(seed), out };
}
