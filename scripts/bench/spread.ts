import { findNearness } from '@/lib/findings/spread/find-nearness';
import { loadRegion } from '@/lib/geography/region';
import { states } from '@/lib/geography/states';
import { Random } from '@/lib/stats/random';
import { greatCircle } from '@/lib/stats/scan/great-circle';
import { speedOfSpread } from '@/lib/stats/spread/speed/speed';
import type { SeasonCounts, SpreadPoints } from '@/lib/stats/spread/types';
import { buildWeights } from '@/lib/stats/weights';
import type { Benchmark } from '../bench';
import { type Steps, startSteps } from '../support/steps';
import { benchCube } from './clustering-cube';

const SEASONS = Array.from({ length: 12 }, (_, t) => 2013 + t);

/** Figures of the methods for spread. */
export const spread: Benchmark = {
  about:
    'Spread over 12 seasons on the counties of the 48 states with an invented front of 150 km a season; all pairs of the demonstration',
  async run() {
    const steps = startSteps();
    await benchNation(steps);
    await benchCube(steps);
    return [...steps.done];
  },
};

/** One species × group on one thread: a first run, which compiles what it needs, and five more. */
async function benchNation(steps: Steps): Promise<void> {
  const { counts, weights, points } = nation();
  const RUNS = 5;
  const about = 'invented, group 0';
  const both = () => {
    const near = findNearness({ counts, weights, points, seed: 1, about });
    const speed = speedOfSpread({ counts, points }, { weights, nearnessP: near.p });
    return speed.kind === 'speed'
      ? `${Math.round(speed.speed)} km (${Math.round(speed.low)} to ${Math.round(speed.high)})`
      : speed.reason;
  };
  await steps.run('nearness, hazard and speed of 3,108 counties: first run', (detail) => detail(both()));
  await steps.run(`the same, ${RUNS} runs more`, (detail) => {
    const wall: number[] = [];
    const cpu: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      const [start, used] = [performance.now(), process.cpuUsage()];
      both();
      wall.push((performance.now() - start) / 1000);
      cpu.push(process.cpuUsage(used).user / 1e6);
    }
    const median = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(RUNS / 2)]!.toFixed(2);
    detail(`median ${median(wall)} s, of which the processor ${median(cpu)} s`);
  });
  await steps.run('nearness, hazard and their permutations alone', (detail) => {
    detail(findNearness({ counts, weights, points, seed: 1, about }).verdict);
  });
}

function nation(): { counts: SeasonCounts; weights: ReturnType<typeof buildWeights>; points: SpreadPoints } {
  const mainland = states().filter(({ fips, code }) => Number(fips) <= 56 && code !== 'AK' && code !== 'HI');
  const { counties, neighbours } = loadRegion({
    name: 'The 48 states (invented counts)',
    states: mainland.map(({ code }) => code),
  });
  const random = new Random(5);
  const places = counties.length;
  const tested = new Int32Array(SEASONS.length * places);
  const resistant = new Int32Array(SEASONS.length * places);
  const origin = counties.find(({ fips }) => fips === ORIGIN)!;
  counties.forEach((county, place) => {
    const scatter = random.uniform() + random.uniform() + random.uniform() - 1.5;
    const arrival = 2013.5 + greatCircle(origin.lon, origin.lat, county.lon, county.lat) / 150 + 2 * scatter;
    SEASONS.forEach((season, t) => {
      const cell = t * places + place;
      tested[cell] = 1 + random.below(2);
      for (let k = 0; k < tested[cell]!; k += 1)
        resistant[cell]! += Number(season >= arrival && random.uniform() < 0.5);
    });
  });
  return {
    counts: { seasons: SEASONS, places, tested, resistant },
    weights: buildWeights(neighbours, 'binary'),
    points: {
      x: counties.map(({ lon }) => lon),
      y: counties.map(({ lat }) => lat),
      metric: 'great circle',
    },
  };
}

/** In the middle of the map. */
const ORIGIN = '29189';
