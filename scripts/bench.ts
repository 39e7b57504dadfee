/**
 * `npm run bench -- NAME [--json]`: the one door to all benchmarks. A benchmark prints figures and judges nothing.
 */
import { runCommand, UsageError } from './support/command';
import { readOptions } from './support/options';
import type { Step } from './support/steps';

export interface Benchmark {
  about: string;
  run: () => Promise<Step[]>;
}

const BENCHMARKS: Record<string, () => Promise<Benchmark>> = {
  clustering: async () => (await import('./bench/clustering')).clustering,
  demo: async () => (await import('./bench/demo')).demo,
  desk: async () => (await import('./bench/desk')).desk,
  gate: async () => (await import('./bench/gate')).gate,
  'gate-attacks': async () => (await import('./bench/gate-attacks')).gateAttacks,
  'gate-sizes': async () => (await import('./bench/gate-sizes')).gateSizes,
  'gate-loss': async () => (await import('./bench/gate-loss')).gateLoss,
  planted: async () => (await import('./bench/planted')).planted,
  spread: async () => (await import('./bench/spread')).spread,
  site: async () => (await import('./bench/site')).site,
  takeaway: async () => (await import('./bench/takeaway')).takeaway,
  intake: async () => (await import('./bench/intake')).intake,
};

const USAGE = `npm run bench -- NAME [--json]   (NAME: ${Object.keys(BENCHMARKS).join(', ')})`;

await runCommand(async () => {
  const { values, words } = readOptions(USAGE, { json: { type: 'boolean' } });
  const load = words.length === 1 ? BENCHMARKS[words[0]!] : undefined;
  if (!load) throw new UsageError(`Usage: ${USAGE}`);
  const benchmark = await load();
  const steps = await benchmark.run();
  if (values.json) {
    const machine = { node: process.version, platform: `${process.platform}-${process.arch}` };
    process.stdout.write(`${JSON.stringify({ benchmark: words[0], ...machine, steps }, null, 1)}\n`);
  } else {
    process.stdout.write(`${benchmark.about}\n${table(steps)}`);
  }
  return 0;
});

function table(steps: readonly Step[]): string {
  const width = Math.max(...steps.map(({ name }) => name.length));
  return steps
    .map(({ name, seconds, megabytes }) => {
      return `${name.padEnd(width)}  ${seconds.toFixed(2).padStart(8)} s  ${String(megabytes).padStart(6)} MB\n`;
    })
    .join('');
}
