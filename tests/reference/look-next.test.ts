import { describe, expect, it } from 'vitest';
import { lookNext } from '@/lib/findings/spread/look-next';
import { WAVE } from './stats/spread-data';

// R 4.2.2 on the simulated wave whose source stands in its file: glm(family = binomial('cloglog'), offset = log(tested),
// epsilon = 1e-14) on each of the four measures (own R code), clustered standard errors from its scores by place as in
// stats/hazard.test.ts, chances and lack of testing by the formulas of lookNext.
const EXPECTED = [
  {
    place: '36',
    chance: 0.911364960690789,
    low: 0.7509796646327769,
    high: 0.98535731268332,
    chanceByNearness: 0.956889634355051,
    lackOfTesting: 0.77074883446067,
  },
  {
    place: '77',
    chance: 0.903854371279945,
    low: 0.7505597896236698,
    high: 0.980741656514812,
    chanceByNearness: 0.931621492428577,
    lackOfTesting: 0.87296161850713,
  },
  {
    place: '85',
    chance: 0.8904317718897,
    low: 0.719960880375024,
    high: 0.978536576611342,
    chanceByNearness: 0.954700968511827,
    lackOfTesting: 0.71456763283074,
  },
  {
    place: '24',
    chance: 0.876521790566095,
    low: 0.6546542135851414,
    high: 0.983675043858685,
    chanceByNearness: 0.995774979827549,
    lackOfTesting: 0.38262180580874,
  },
  {
    place: '81',
    chance: 0.86239648992796,
    low: 0.7016061255754008,
    high: 0.961335724685388,
    chanceByNearness: 0.903113628034655,
    lackOfTesting: 0.84969792686036,
  },
  {
    place: '55',
    chance: 0.021052414446483,
    low: 0.0089861722013908,
    high: 0.048915847321922,
    chanceByNearness: 0.021674053212348,
    lackOfTesting: 0.97101142175094,
  },
];

describe('where to look after a simulated wave', () => {
  const { counts, points, weights } = WAVE;
  const found = lookNext({
    ...{ species: 'ABCDE', group: 9, placeKind: 'county', season: 2023, counts, weights },
    places: Array.from({ length: counts.places }, (_, i) => String(i)),
    points: { ...points, metric: 'plane' },
  });

  it('has R’s hazard ratio with its clustered interval, for the measure that fits best', () => {
    expect(found.model).toMatchObject({
      measure: 'finds around, within a reach of 40',
      newFinds: 50,
      rows: 415,
    });
    expect(found.model!.hazardRatio).toBeCloseTo(3.6690749479248, 6);
    expect(found.model!.low).toBeCloseTo(2.637997039115, 5);
    expect(found.model!.high).toBeCloseTo(5.1031562105186, 5);
    expect(found.model!.p / 4.5595071414596e-14).toBeCloseTo(1, 4);
  });

  it('has R’s chances, intervals and lack of testing, in R’s order', () => {
    const shown = [...found.places.slice(0, 5), found.places.at(-1)!];
    expect(found.places).toHaveLength(45);
    expect(shown.map(({ place }) => place)).toEqual(EXPECTED.map(({ place }) => place));
    shown.forEach((place, i) => {
      for (const key of ['chance', 'low', 'high', 'chanceByNearness', 'lackOfTesting'] as const) {
        expect(place[key], `${place.place} ${key}`).toBeCloseTo(EXPECTED[i]![key], 6);
      }
    });
  });
});
