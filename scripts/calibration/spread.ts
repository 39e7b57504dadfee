import { fileURLToPath } from 'node:url';
import type { Calibration } from '../calibrate';
import { inProcesses } from './in-processes';
import { NEARNESS_TESTS, NEARNESS_WAYS, type NearnessRow, TESTINGS } from './spread/nearness-runs';
import type { Answer, Order } from './spread/process';
import { type SpeedRow, type Told, WAYS } from './spread/speed-runs';
import { OWN_MODELS } from './spread/ways';

const SEED = 20261125;

/** Level and power of nearness, and what becomes of a speed under its own model, under others, and where nothing moves. */
export const spread: Calibration = {
  document: 'calibration-spread.md',
  async run(maps, date, onProgress) {
    const own = Math.max(2, Math.round(0.3 * maps));
    const others = Math.max(2, Math.round(0.1 * maps));
    const orders: Order[] = [
      ...WAYS.map((way): Order => {
        const runs = OWN_MODELS.includes(way) ? own : others;
        return { kind: 'speed', way: way.name, runs, byDistrict: others, seed: SEED };
      }),
      ...NEARNESS_WAYS.flatMap((way) =>
        TESTINGS.map(
          (testing): Order => ({ kind: 'nearness', way: way.name, testing, runs: maps, seed: SEED }),
        ),
      ),
    ];
    const module = fileURLToPath(new URL('./spread/process.ts', import.meta.url));
    const answers = await inProcesses<Order, Answer>(module, orders, (order) =>
      onProgress(
        order.kind === 'speed' ? `speed: ${order.way}` : `nearness: ${order.way}, testing ${order.testing}`,
      ),
    );
    const speed = answers.flatMap((answer) => (Array.isArray(answer) ? answer : []));
    const near = answers.flatMap((answer) => (Array.isArray(answer) ? [] : [answer]));
    return page({ date, maps, own, others, near, speed });
  },
};

interface Result {
  date: string;
  maps: number;
  own: number;
  others: number;
  near: NearnessRow[];
  speed: SpeedRow[];
}

function page({ date, maps, own, others, near, speed }: Result): string {
  const names = NEARNESS_TESTS.map(([name]) => name);
  return `# Calibration of the tests and estimates of spread

Written by \`npm run calibrate -- spread\` on ${date}, seed ${SEED}: ${maps.toLocaleString('en')} simulated programmes a line of nearness, ${own.toLocaleString('en')} a line
of speed under a model of its own, ${others.toLocaleString('en')} under others and by district. All counts are simulated; the 328 counties and who is whose neighbour are real (us-atlas 3.0.1, the demonstration's four
states). Twelve seasons, some 2,000 populations. There is no published value of these tests in this form: they rest on these
simulations, and nearness on the identity with an exact Mantel–Haenszel test besides (tests/reference/stats/nearness.test.ts).

## Are new finds near earlier ones?

Part of simulated programmes, in per cent, in which a test says so at 5 %. Testing: *even*, as much everywhere; *uneven*, as in the
demonstration; *follows finds*, the same and doubled next door in the season after a first find. With ${maps.toLocaleString('en')} runs a test at its
level lies between ${range(maps)} in 99 of 100 lines. An exact test may lie below it.

| | testing | ${names.join(' | ')} |
| --- | --- | ${names.map(() => '---:').join(' | ')} |
${near
  .map(
    ({ way, testing, found }) =>
      `| ${way} | ${testing} | ${names.map((name) => rate(found[name]!)).join(' | ')} |`,
  )
  .join('\n')}

*No spread*: 5 % everywhere and always. *A wave*: 40 km a season from one origin, scatter of one season, a third resistant
afterwards; there *hazard’s fit* says how often the check sees that a found neighbour alone does not make a wave.

${NEARNESS_TESTS.map(([name, about]) => `- **${name}**: ${about}`).join('\n')}

## How fast does it move?

*Told*: a speed is told at all, in per cent. *Holds*: of those, the interval holds the planted speed, in per cent. *Width*: the
interval's upper end over its lower one, median. Testing follows finds. By district: counts of the 30 districts by season, all that
a release shows.

| | planted | grain | told | holds | median speed | width | origins | not told because |
| --- | ---: | --- | ---: | ---: | ---: | ---: | --- | --- |
${speed.map(speedLine).join('\n')}

### Simple estimates of the same finds, from the estimated origin

Medians of the programmes in which a speed is told by county; descriptive, and wrong as the literature says.

| | planted | least squares | its inverse | this |
| --- | ---: | ---: | ---: | ---: |
${speed
  .filter(({ way, grain, simple }) => grain === 'county' && plantedIn(way) !== null && simple.length > 0)
  .map(({ way, simple, found }) => {
    const told = found.flatMap((each) => (each.kind === 'speed' ? [each.speed] : []));
    return `| ${way} | ${plantedIn(way)} | ${round(median(simple.map(({ leastSquares }) => leastSquares)))} | ${round(median(simple.map(({ inverse }) => inverse)))} | ${round(median(told))} |`;
  })
  .join('\n')}

### What was planted

${WAYS.map(({ name, about }) => `- **${name}**: ${about}`).join('\n')}
`;
}

function speedLine({ way, grain, found }: SpeedRow): string {
  const planted = plantedIn(way);
  const told = found.filter((each): each is Told => each.kind === 'speed');
  const holds = told.filter(({ low, high }) => planted !== null && low <= planted && planted <= high).length;
  const reasons = count(found.flatMap((each) => (each.kind === 'no speed' ? [each.reason] : [])));
  const origins = count(told.map((each) => String(each.origins)));
  const cells = [
    ...[way, planted === null ? '–' : String(planted), grain, percent(told.length / found.length)],
    planted === null || told.length === 0 ? '–' : percent(holds / told.length),
    told.length === 0 ? '–' : round(median(told.map(({ speed }) => speed))),
    told.length === 0 ? '–' : median(told.map(({ low, high }) => high / low)).toFixed(2),
    origins.map(([number, times]) => `${number}: ${times}`).join(', ') || '–',
    reasons.map(([reason, times]) => `${reason} ${times}`).join(', ') || '–',
  ];
  return `| ${cells.join(' | ')} |`;
}

function plantedIn(way: string): number | null {
  return WAYS.find(({ name }) => name === way)!.speed;
}

function count(words: readonly string[]): [string, number][] {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort(([a, n], [b, m]) => m - n || (a < b ? -1 : 1));
}

function rate(p: readonly (number | null)[]): string {
  const told = p.filter((each) => each !== null);
  return told.length === 0 ? '–' : percent(told.filter((each) => each <= 0.05 + 1e-12).length / told.length);
}

/** Central 99 % of the binomial distribution at 5 %, by its normal approximation. */
function range(runs: number): string {
  const reach = 2.576 * Math.sqrt((0.05 * 0.95) / runs);
  return `${percent(Math.max(0, 0.05 - reach))} and ${percent(0.05 + reach)}`;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}

function percent(part: number): string {
  return (100 * part).toFixed(1);
}

function round(value: number): string {
  return value.toFixed(1);
}
