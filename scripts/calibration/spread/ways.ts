import type { Random } from '@/lib/stats/random';
import { normalFrom } from '../../scenario/random';
import type { Ground, ShareAt } from './screening';

/** A way of spreading, or of not spreading. */
export interface Way {
  name: string;
  about: string;
  /** km a season; null where there is no one speed to find. */
  speed: number | null;
  plant(ground: Ground, random: Random): ShareAt;
}

const [SLOW, OWN, FAST] = [15, 40, 80].map(
  (speed): Way => ({
    name: `arrival, ${speed} km`,
    about: 'the arrival model’s own: one origin, scatter of one season, half resistant afterwards',
    speed,
    plant: (ground, random) => arriving(radial(ground, random, speed)),
  }),
);

const RISING: Way = {
  name: 'rising share, 40 km',
  about: 'the other model’s own: a logistic rise to 70 % over some four seasons',
  speed: 40,
  plant: (ground, random) => {
    const arrival = radial(ground, random, 40, 0);
    return (place, season) => 0.7 / (1 + Math.exp(arrival[place]! - season));
  },
};

/** Fronts as the two models suppose them. */
export const OWN_MODELS: readonly Way[] = [OWN!, RISING];

/** The arrival model’s own at other speeds, and fronts that are otherwise than either model supposes. */
export const OTHERS: readonly Way[] = [
  SLOW!,
  FAST!,
  {
    name: 'rise after arrival',
    about:
      'as the demonstration plants it: arrival scattered by a season, the share rising towards 75 % behind it',
    speed: 40,
    plant: (ground, random) => {
      const arrival = radial(ground, random, 40);
      return (place, season) =>
        season >= arrival[place]! ? 0.75 * -Math.expm1(-(season - arrival[place]! + 0.5) / 1.5) : 0;
    },
  },
  {
    name: 'two origins',
    about: 'a second origin anywhere, two seasons later',
    speed: 40,
    plant: (ground, random) => {
      const [one, two] = [radial(ground, random, 40), radial(ground, random, 40)];
      return arriving(one.map((time, place) => Math.min(time, two[place]! + 2)));
    },
  },
  {
    name: 'chance by county',
    about: 'each county its own chance of a resistant population afterwards, 10 to 90 %',
    speed: 40,
    plant: (ground, random) => {
      const arrival = radial(ground, random, 40);
      const chance = arrival.map(() => 0.1 + 0.8 * random.uniform());
      return (place, season) => (season >= arrival[place]! ? chance[place]! : 0);
    },
  },
  {
    name: 'uneven directions',
    about:
      '29 km a season towards one side, 67 towards the other: “holds 40” asks for the middle of the slownesses',
    speed: 40,
    plant: (ground, random) => {
      const origin = random.below(ground.region.counties.length);
      const { lon, lat } = ground.region.counties[origin]!;
      return arriving(
        Float64Array.from(ground.region.counties, (county, place) => {
          const [east, north] = [(county.lon - lon) * Math.cos((lat * Math.PI) / 180), county.lat - lat];
          const slowness = (1 + 0.4 * (north / Math.max(1e-9, Math.hypot(east, north)))) / 40;
          return START + ground.distance(origin, place) * slowness + normalFrom(() => random.uniform());
        }),
      );
    },
  },
  {
    name: '2 % false finds',
    about: 'of a hundred populations from where it is not yet two are taken for resistant',
    speed: 40,
    plant: (ground, random) => {
      const arrival = radial(ground, random, 40);
      return (place, season) => (season >= arrival[place]! ? 0.5 : 0.02);
    },
  },
  {
    name: 'long jumps',
    about: 'one county of fifty is reached at any time before the front',
    speed: 40,
    plant: (ground, random) => {
      const arrival = radial(ground, random, 40);
      return arriving(
        arrival.map((time) => (random.uniform() < 0.02 ? START + (time - START) * random.uniform() : time)),
      );
    },
  },
];

export const STANDING: readonly Way[] = [
  {
    name: 'nothing moves',
    about: '5 % everywhere and always',
    speed: null,
    plant: () => () => 0.05,
  },
  {
    name: 'rises everywhere',
    about: 'from nothing to 45 % in twelve seasons, everywhere at once',
    speed: null,
    plant: () => (_, season) => 0.04 * (season - 2013),
  },
  {
    name: 'standing cluster',
    about: '30 % within 120 km of a county, 2 % elsewhere, always',
    speed: null,
    plant: (ground, random) => {
      const centre = random.below(ground.region.counties.length);
      return (place) => (ground.distance(centre, place) <= 120 ? 0.3 : 0.02);
    },
  },
  {
    name: 'introductions',
    about:
      'three counties in three seasons, each season a neighbour with a chance of 22 %, rarely any county',
    speed: null,
    plant: (ground, random) => {
      const arrival = passedOn(ground, random);
      return (place, season) =>
        season >= arrival[place]! ? 0.7 * -Math.expm1(-(season - arrival[place]! + 0.5) / 1.5) : 0;
    },
  },
];

/** No spread, for the level of nearness: rare and the same everywhere. */
export const RARE: Way = {
  name: 'no spread',
  about: '5 % everywhere and always',
  speed: null,
  plant: () => () => 0.05,
};
/** A wave, for its power. */
export const WAVE: Way = {
  name: 'a wave',
  about: '40 km a season from one origin, scatter of one season, a third resistant afterwards',
  speed: 40,
  plant: (ground, random) => arriving(radial(ground, random, 40), 1 / 3),
};

const START = 2013.5;

function arriving(arrival: Float64Array, chance = 0.5): ShareAt {
  return (place, season) => (season >= arrival[place]! ? chance : 0);
}

/** Times of a front from a county by chance, with normal scatter. */
function radial(ground: Ground, random: Random, speed: number, scatter = 1): Float64Array {
  const { length } = ground.region.counties;
  const origin = random.below(length);
  return Float64Array.from(
    { length },
    (_, place) =>
      START + ground.distance(origin, place) / speed + scatter * normalFrom(() => random.uniform()),
  );
}

function passedOn({ region }: Ground, random: Random): Int32Array {
  const { length } = region.counties;
  const arrival = new Int32Array(length).fill(9999);
  const starts = [2014, 2015, 2017].map((season) => ({ season, place: random.below(length) }));
  for (let season = 2013; season < 2026; season += 1) {
    for (const start of starts)
      if (start.season === season) arrival[start.place] = Math.min(arrival[start.place]!, season);
    const reached = [...arrival.keys()].filter((place) => arrival[place]! < season);
    for (const place of reached) {
      for (const other of region.neighbours[place]!)
        if (arrival[other] === 9999 && random.uniform() < 0.22) arrival[other] = season;
      const far = random.below(length);
      if (arrival[far] === 9999 && random.uniform() < 0.008) arrival[far] = season;
    }
  }
  return arrival;
}
