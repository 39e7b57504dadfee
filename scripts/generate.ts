import { parseArgs } from 'node:util';
import { generateScenario } from './scenario/generate-scenario';
import { SIZES, type Size, scenarioRegion } from './scenario/sizes';
import { writeScenario } from './scenario/write-scenario';

const USAGE = `npm run generate -- --size ${SIZES.join('|')} --seed N --out FOLDER
  Writes simulated laboratory sheets, one CSV file a season, with the truth that was planted in them.
  Without --size: default. Without --seed: 1.`;

/** `npm run generate`: writes the simulated programme's sheets. */
async function main(): Promise<void> {
  const { size, seed, out } = readArguments(process.argv.slice(2));
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
}

function readArguments(args: string[]): { size: Size; seed: number; out: string } {
  const { values } = parseArgs({
    args,
    options: { size: { type: 'string' }, seed: { type: 'string' }, out: { type: 'string' } },
  });
  const size = SIZES.find((known) => known === (values.size ?? 'default'));
  if (!size) throw new RangeError(`--size is one of ${SIZES.join(', ')}, not “${values.size}”.`);
  const seed = values.seed ?? '1';
  if (!/^\d{1,15}$/.test(seed)) throw new RangeError(`--seed is a whole number, not “${seed}”.`);
  if (!values.out) throw new RangeError('--out FOLDER is missing: where shall the sheets go?');
  return { size, seed: Number(seed), out: values.out };
}

main().catch((error: unknown) => {
  console.error(`${error instanceof Error ? error.message : String(error)}\n\n${USAGE}`);
  process.exitCode = 1;
});
