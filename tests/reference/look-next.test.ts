import { describe, expect, it } from 'vitest';
import { lookNext } from '@/lib/findings/spread/look-next';
import { NOTHING, WAVE } from './stats/spread-data';

// R 4.2.2 on the simulated wave whose source stands in its file, own R code: glm(family = binomial('cloglog'),
// offset = log(tested), epsilon = 1e-14) on each of the five measures, standard errors clustered by place from its scores
// as in stats/hazard.test.ts, weights from logLik, lack of testing and averages by the formulas of lookNext; p with
// factor(season) in the model, without seasons in which none or all are new.
const KEYS = ['chance', 'low', 'high', 'chanceByNearness', 'lackOfTesting'] as const;

describe.each([
  {
    name: 'of eleven seasons',
    seasons: 11,
    listed: 45,
    p: 2.5897117502566e-17,
    measures: [
      [
        'finds around, within a reach of 40',
        0.9880627679258,
        3.6690749479248,
        2.637997039115,
        5.1031562105186,
      ],
      [
        'finds around, within a reach of 80',
        0.011776490848898,
        4.7508140435497,
        2.9360144009103,
        7.6873717204491,
      ],
      [
        'finds around, within a reach of 20',
        1.6074091264902e-4,
        3.7950564542882,
        2.8923507511891,
        4.9794975541309,
      ],
      ['share of neighbours found', 2.7716055956243e-10, 64.984508876791, 22.402629198165, 188.50405265395],
      ['number of neighbours found', 3.5490819746276e-11, 1.9195593627037, 1.6450094937706, 2.2399312349849],
    ] as const,
    places: [
      ['36', 0.911090987376217, 0.7500973080690809, 0.985357227559434, 0.95691732124095, 0.76960993607123],
      ['77', 0.9032904484602, 0.7490174872322475, 0.980699668645503, 0.93127224203566, 0.87243847511251],
      ['85', 0.890470306933655, 0.7195867250280096, 0.978649122797162, 0.95489395552022, 0.71369663093003],
      ['24', 0.876971061699232, 0.6545102048507341, 0.983933757606328, 0.99580284005358, 0.38282528213],
      ['81', 0.862582248913658, 0.701397574185836, 0.961579135561581, 0.90350692411061, 0.8487975340019],
      ['55', 0.021260462472352, 0.0089725606951149, 0.049947166724859, 0.02188328829057, 0.97123069894717],
    ] as const,
  },
  {
    name: 'of its first six seasons',
    seasons: 6,
    listed: 76,
    p: 1.9126370235655e-6,
    measures: [
      [
        'finds around, within a reach of 40',
        0.89088164318383,
        4.8076319708546,
        2.8799726450401,
        8.0255363560447,
      ],
      [
        'finds around, within a reach of 80',
        0.090260497502984,
        5.6805481319796,
        3.0964511256645,
        10.421164672125,
      ],
      [
        'finds around, within a reach of 20',
        0.018812557853698,
        4.925943316333,
        3.2508141012332,
        7.4642587364563,
      ],
      ['share of neighbours found', 4.1623963427466e-5, 248.08915004587, 57.065246020604, 1078.5588543377],
      ['number of neighbours found', 3.6774960579143e-6, 1.9975616884678, 1.5426837963835, 2.5865655091397],
    ] as const,
    places: [
      ['0', 0.989123329263862, 0.8699547170236945, 0.999955523898796, 0.9892172166544725, 0.99808612744474],
      ['22', 0.978476627727045, 0.8013406198253505, 0.999890244198321, 0.9974941403753288, 0.64093116303819],
      ['52', 0.967359229612296, 0.7973183642363117, 0.999349277546315, 0.9819529098814141, 0.85240062272233],
      ['41', 0.966252852103843, 0.7973832833450466, 0.999248725649919, 0.9781207755230781, 0.88662122276333],
      ['17', 0.964954176206665, 0.7411655609979569, 0.99975365438598, 0.9990214829586309, 0.48360086463596],
      ['55', 0.007228691747761, 0.0013641555185412, 0.037823549071089, 0.0072981975634003, 0.99044167285538],
    ] as const,
  },
])('where to look after a simulated wave $name', ({ seasons, listed, p, measures, places }) => {
  const { counts, points, weights } = WAVE;
  const cells = seasons * counts.places;
  const found = lookNext({
    ...{ species: 'ABCDE', group: 9, placeKind: 'county', season: 2012 + seasons, weights, points },
    places: Array.from({ length: counts.places }, (_, i) => String(i)),
    counts: {
      ...{ seasons: Array.from(counts.seasons).slice(0, seasons), places: counts.places },
      tested: counts.tested.slice(0, cells),
      resistant: counts.resistant.slice(0, cells),
    },
  });

  it('has R’s weights and hazard ratios with their clustered intervals', () => {
    expect(found.model!.measures.map(({ name }) => name)).toEqual(measures.map(([name]) => name));
    found.model!.measures.forEach(({ weight, hazardRatio, low, high }, k) => {
      const [, ...expected] = measures[k]!;
      [weight, hazardRatio, low, high].forEach((value, at) => {
        expect(value / expected[at]!, `${measures[k]![0]} ${at}`).toBeCloseTo(1, 5);
      });
    });
    expect(found.model!.p / p).toBeCloseTo(1, 4);
  });

  it('has R’s chances, intervals and lack of testing, in R’s order', () => {
    expect(found.places).toHaveLength(listed);
    const shown = [...found.places.slice(0, 5), found.places.at(-1)!];
    expect(shown.map(({ place }) => place)).toEqual(places.map(([place]) => place));
    shown.forEach((place, i) => {
      KEYS.forEach((key, k) => {
        expect(place[key], `${place.place} ${key}`).toBeCloseTo(places[i]![k + 1] as number, 6);
      });
    });
  });
});

describe('where to look after a simulation without spread', () => {
  it('is not said by nearness: the coefficient of distance has the wrong sign in R too (0.70, stats/hazard.test.ts)', () => {
    const { counts, points, weights } = NOTHING;
    const places = Array.from({ length: counts.places }, (_, i) => String(i));
    const found = lookNext({
      species: 'ABCDE',
      group: 9,
      placeKind: 'county',
      season: 2050,
      places,
      counts,
      weights,
      points,
    });
    if (found.order === 'hazard') {
      expect(found.model!.p).toBeGreaterThan(0.05);
      expect(found.sentence).toContain('have not been shown to come near earlier ones');
    } else expect(found.noModel!.reason).toBe('not nearer to finds');
  });
});
