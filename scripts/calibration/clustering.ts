import { deriveSeed, Random } from '@/lib/stats/random';
import type { Calibration } from '../calibrate';
import { type EffortLine, effortLines } from './effort-lines';
import { askTests, TESTS } from './map-tests';

const SEED = 20261125;
const SHARES = [0.05, 0.3, 0.6];

/** The tests of clustering on null maps, and on a planted disc and a planted slope, over uneven and thin testing. */
export const clustering: Calibration = {
  document: 'calibration-clustering.md',
  async run(maps, date, onProgress) {
    const lines = effortLines(SEED);
    const level = lines.flatMap((line) =>
      SHARES.map((share) => {
        onProgress(`null maps: ${line.name}, share ${share}`);
        return { line, share, found: repeat(maps, line, `null ${share}`, () => () => share) };
      }),
    );
    const planted = lines.flatMap((line) => [
      measured('disc', line, discAround),
      measured('slope', line, () => slopeOver(line)),
    ]);
    return page(maps, date, level, planted);

    function measured(name: string, line: EffortLine, shares: (line: EffortLine, random: Random) => ShareAt) {
      onProgress(`planted ${name}: ${line.name}`);
      const number = Math.max(1, Math.round(maps / 5));
      return { name, line, number, found: repeat(number, line, name, (random) => shares(line, random)) };
    }
  },
};

type ShareAt = (place: number) => number;
/** For each test the p of every map; NaN where the map gave no answer. */
type Found = Map<string, number[]>;

function repeat(maps: number, line: EffortLine, label: string, shares: (random: Random) => ShareAt): Found {
  const found: Found = new Map(TESTS.map(({ name }) => [name, []]));
  for (let map = 0; map < maps; map += 1) {
    const random = new Random(deriveSeed(SEED, `${line.name}|${label}|${map}`));
    const shareAt = shares(random);
    const resistant = Int32Array.from(line.tested, (tested, place) => {
      let count = 0;
      for (let k = 0; k < tested; k += 1) count += Number(random.uniform() < shareAt(place));
      return count;
    });
    for (const [name, p] of askTests(line, resistant, random)) found.get(name)!.push(p);
  }
  return found;
}

/** 50 % resistant within 100 km of a place by chance, 10 % elsewhere. */
function discAround(line: EffortLine, random: Random): ShareAt {
  const centre = random.below(line.tested.length);
  return (place) => (line.distance(centre, place) <= 100 ? 0.5 : 0.1);
}

/** 50 % in the east, falling evenly to 5 % in the west. */
function slopeOver({ lon }: EffortLine): ShareAt {
  const [west, east] = [Math.min(...lon), Math.max(...lon)];
  return (place) => 0.05 + 0.45 * ((lon[place]! - west) / (east - west));
}

interface LevelRow {
  line: EffortLine;
  share: number;
  found: Found;
}

interface PowerRow {
  name: string;
  line: EffortLine;
  number: number;
  found: Found;
}

function page(maps: number, date: string, level: readonly LevelRow[], planted: readonly PowerRow[]): string {
  const [low, high] = binomialRange(maps, 0.05);
  const lines = [...new Set(level.map(({ line }) => line))];
  return `# Calibration of the tests of clustering

Written by \`npm run calibrate -- clustering\` on ${date}, seed ${SEED}, ${maps.toLocaleString('en')} maps a line. All counts are
simulated; the counties and who is whose neighbour are real (us-atlas 3.0.1, the demonstration's four states).

## Testing

| testing | places with a tested neighbour | tested | without one |
| --- | ---: | ---: | ---: |
${lines.map((line) => `| ${line.name}: ${line.about} | ${line.tested.length} | ${sum(line.tested)} | ${line.islands} |`).join('\n')}

## Where nothing is there

Part of null maps (one share for all) on which a test says something at 5 %, in per cent. With ${maps.toLocaleString('en')} maps a test at its
level lies between ${percent(low)} and ${percent(high)} in 99 of 100 lines. A test of places says something where it flags any place after
its adjustment; with few counts an exact test lies below its level. ↑: above that range.

| testing | share | ${TESTS.map(({ name }) => name).join(' | ')} |
| --- | ---: | ${TESTS.map(() => '---:').join(' | ')} |
${level
  .map(({ line, share, found }) => {
    const cells = TESTS.map(({ name }) => rate(found.get(name)!, high));
    return `| ${line.name} | ${100 * share} % | ${cells.join(' | ')} |`;
  })
  .join('\n')}

### The whole distribution of p

By how many points of per cent the part of null maps with p ≤ x exceeds x (all lines together,
${(maps * level.length).toLocaleString('en')} maps; tests of the whole map). Above 0: p too small, a test that says too much.

| test | 1 % | 5 % | 10 % | 25 % | 50 % | 75 % |
| --- | ---: | ---: | ---: | ---: | ---: | ---: |
${TESTS.filter(({ isWhole }) => isWhole)
  .map(({ name }) => {
    const all = level.flatMap(({ found }) => found.get(name)!).filter((p) => !Number.isNaN(p));
    const beyond = [0.01, 0.05, 0.1, 0.25, 0.5, 0.75].map((x) => part(all, x) - x);
    return `| ${name} | ${beyond.map((each) => signed(100 * each)).join(' | ')} |`;
  })
  .join('\n')}

## Where something is there

Part of maps, in per cent, on which a test says something at 5 %: *disc*, 50 % resistant within 100 km of a place by chance and 10 %
elsewhere; *slope*, 50 % in the east falling to 5 % in the west. ${planted[0]?.number ?? 0} maps a line.

| planted | testing | ${TESTS.map(({ name }) => name).join(' | ')} |
| --- | --- | ${TESTS.map(() => '---:').join(' | ')} |
${planted
  .map(({ name, line, found }) => {
    const cells = TESTS.map((test) => rate(found.get(test.name)!, 1));
    return `| ${name} | ${line.name} | ${cells.join(' | ')} |`;
  })
  .join('\n')}

## What the columns are

${TESTS.map(({ name, about }) => `- **${name}**: ${about}`).join('\n')}

–: no map gave an answer (all have the same share, or it was found everywhere or nowhere).
`;
}

function rate(p: readonly number[], high: number): string {
  const told = p.filter((each) => !Number.isNaN(each));
  if (told.length === 0) return '–';
  const found = part(told, 0.05);
  return `${percent(found)}${found > high ? ' ↑' : ''}`;
}

function part(p: readonly number[], x: number): number {
  return p.filter((each) => each <= x + 1e-12).length / p.length;
}

/** Central 99 % of the binomial distribution, by its normal approximation, as parts. */
function binomialRange(maps: number, rate: number): [number, number] {
  const reach = 2.576 * Math.sqrt((rate * (1 - rate)) / maps);
  return [Math.max(0, rate - reach), rate + reach];
}

function percent(part: number): string {
  return (100 * part).toFixed(1);
}

function signed(points: number): string {
  return `${points >= 0 ? '+' : '−'}${Math.abs(points).toFixed(1)}`;
}

function sum(counts: ArrayLike<number>): number {
  return Array.from(counts).reduce((total, count) => total + count, 0);
}
