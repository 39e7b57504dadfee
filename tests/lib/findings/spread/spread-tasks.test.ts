import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyseSpread } from '@/lib/findings/spread/analyse-spread';
import { findSimpleSpeeds } from '@/lib/findings/spread/find-simple-speeds';
import { findSpeed } from '@/lib/findings/spread/find-speed';
import { lookNextLayer } from '@/lib/findings/spread/look-next-layer';
import { type SpreadTasksInput, spreadTasks } from '@/lib/findings/spread/spread-tasks';
import type { SpreadTask } from '@/lib/findings/spread/types';
import { inventedFront } from '../../stats/spread/invented-front';
import { factOf, facts, region } from '../analysis/invented-facts';

const input: SpreadTasksInput = {
  facts,
  region,
  closedSeasons: [2021, 2022, 2023],
  foundBefore: [],
  exposureOf: () => null,
  seed: 1,
  speciesName: () => 'Invented weed',
};
const tasks = (over: Partial<SpreadTasksInput> = {}) => spreadTasks({ ...input, ...over });
const first = (over: Partial<SpreadTasksInput> = {}): SpreadTask => tasks(over)[0]!;

describe('the spreads of a programme', () => {
  it('are one for each species and group, of all designs together and of each by itself', () => {
    expect(tasks().map(({ species, group, design }) => [species, group, design])).toEqual([
      ['ABCDE', 9, null],
      ['ABCDE', 9, 'random'],
      ['ABCDE', 9, 'submitted'],
    ]);
  });

  it('hold each population once, with its county, season, sender and result', () => {
    const { populations, seasons, next } = first();
    expect(seasons).toEqual([2022, 2023]);
    expect(next).toBe(2024);
    expect(populations.season).toHaveLength(facts.length);
    expect(populations.resistant.reduce((sum, one) => sum + one, 0)).toBe(
      facts.filter(({ result }) => result === 'resistant').length,
    );
    expect(new Set(populations.sender).size).toBe(new Set(facts.map(({ operation }) => operation)).size);
  });

  it('leave out a season under way, other assays and what has no result', () => {
    const others = [
      factOf('r0c0', { season: 2024, result: 'resistant' }),
      factOf('r0c0', { assay: 'molecular', result: 'resistant' }),
      factOf('r0c0', { result: 'inconclusive' }),
    ];
    expect(tasks({ facts: [...facts, ...others] })).toEqual(tasks());
    expect(tasks({ closedSeasons: [] })).toEqual([]);
  });

  it('run through a season without tests: a gap of years is no step of one', () => {
    const gap = [factOf('r0c0', { season: 2016 }), factOf('r0c0', { season: 2021, result: 'resistant' })];
    expect(first({ facts: gap, closedSeasons: [2016, 2017, 2018, 2019, 2020, 2021] }).seasons).toHaveLength(
      6,
    );
  });

  it('do not depend on the order of the facts', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(facts, { minLength: facts.length }), (shuffled) => {
        expect(tasks({ facts: shuffled })).toEqual(tasks());
      }),
      { numRuns: 5 },
    );
  });
});

describe('the analysis of a spread', () => {
  const clean = [2021, 2022, 2023].map((season) => factOf('r0c0', { season }));
  const find = factOf('r0c0', { season: 2023, population: 'late find', result: 'resistant' });

  it('tells first detections with the seasons between which it came, by county and by district', () => {
    const found = analyseSpread(first({ facts: [...clean.slice(0, 2), find] }));
    expect(found.firstDetections).toMatchObject([
      {
        placeKind: 'county',
        place: 'r0c0',
        how: 'new after a clean record',
        arrival: { after: 2022, by: 2023 },
      },
      { placeKind: 'district', how: 'new after a clean record', arrival: { after: 2022, by: 2023 } },
    ]);
  });

  it('a retracted first detection undoes itself', () => {
    expect(analyseSpread(first({ facts: [...clean, find] })).firstDetections).toHaveLength(2);
    expect(analyseSpread(first({ facts: clean }))).toMatchObject({ firstDetections: [], resistant: 0 });
  });

  it('what was known before the programme is no first detection, and makes neighbours of finds', () => {
    const neighbour = [2022, 2023].map((season) =>
      factOf('r0c1', { season, result: season === 2023 ? 'resistant' : 'susceptible' }),
    );
    const far = [2022, 2023].map((season) => factOf('r5c5', { season }));
    const own = [...clean, find, ...neighbour, ...far];
    const without = analyseSpread(first({ facts: own }));
    const known = analyseSpread(
      first({ facts: own, foundBefore: [{ species: 'ABCDE', group: 9, county: 'r0c0' }] }),
    );
    const counties = ({ firstDetections }: typeof known) =>
      firstDetections.filter(({ placeKind }) => placeKind === 'county').map(({ place }) => place);
    expect(counties(without)).toEqual(['r0c0', 'r0c1']);
    expect(counties(known)).toEqual(['r0c1']);
    expect(without.nearness).toMatchObject({ observed: 0, newFinds: 2 });
    expect(known.nearness).toMatchObject({ observed: 1, newFinds: 1 });
  });

  it.each([
    ['one season', { facts: facts.filter(({ season }) => season === 2022) }],
    ['one find', { facts: [...clean, find] }],
    ['no find', { facts: clean }],
    ['a county tested once', { facts: [factOf('r0c0', { result: 'resistant' })] }],
    ['a gap of years', { facts: [clean[0]!, find], closedSeasons: [2003, 2021, 2023] }],
    [
      'all finds in one season',
      {
        facts: facts.map((fact) => ({
          ...fact,
          result: fact.season === 2022 ? ('susceptible' as const) : ('resistant' as const),
        })),
      },
    ],
  ])('of %s has a sentence for each finding, and no number that is none', (_, over) => {
    for (const task of tasks(over)) {
      const found = analyseSpread(task);
      const { nearness, speed, togetherness, trend, change, lookNext } = found;
      for (const finding of [nearness, speed, togetherness, trend, change, lookNext]) {
        if (finding) expect(finding.sentence).toMatch(/^Invented weed, group 9.*\.$/);
      }
      expect(speed.reason).toMatch(/\S/);
      expect(JSON.stringify(found)).not.toMatch(/NaN|undefined|Infinity/);
      expect(JSON.parse(JSON.stringify(found))).toEqual(found);
    }
  });

  it('says of each county without a find what its newest tests still allow', () => {
    const { reassurance } = analyseSpread(first({ facts: clean }));
    expect(reassurance!.seasons).toEqual([2021, 2023]);
    const own = reassurance!.counties.find(({ county }) => county === 'r0c0');
    // 0 of 3 is compatible with up to 1 − 0.05^(1/3) = 63 %; 29 clean ones bring it below 10 %.
    expect(own).toMatchObject({ tested: 3, lastTested: 2023, more: 26 });
    expect(own!.upper).toBeCloseTo(1 - 0.05 ** (1 / 3), 12);
    expect(reassurance!.counties.filter(({ lastTested }) => lastTested === null)).toHaveLength(35);
  });
});

describe('beside a speed', () => {
  const { map, weights } = inventedFront(12, (x, y, season) =>
    season >= 2013 + Math.hypot(x - 200, y - 170) / 40 ? 0.6 : 0,
  );
  // The plane of the invented front, laid on the sphere about its middle.
  const lon = Array.from(map.points.x, (x) => -100 + (x - 200) / (111.2 * Math.cos((40 * Math.PI) / 180)));
  const lat = Array.from(map.points.y, (y) => 40 + (y - 170) / 111.2);
  const areas = lon.map(() => 900);

  it('the simple estimates stand, all of the size of the planted speed', () => {
    const points = { x: lon, y: lat, metric: 'great circle' as const };
    const keys = lon.map((_, i) => `p${i}`);
    const speed = findSpeed({
      ...{ species: 'ABCDE', group: 9, map: { counts: map.counts, points }, grain: 'county' as const },
      ...{ points: keys, pointNames: keys, options: { weights, nearnessP: 0 }, speciesName: 'Invented weed' },
    });
    const simple = findSimpleSpeeds(map.counts, { lon, lat, areas }, speed)!;
    for (const value of Object.values(simple)) {
      expect(value).toBeGreaterThan(10);
      expect(value).toBeLessThan(120);
    }
    // What is found late is found after the front: least squares falls short, its inverse goes beyond.
    expect(simple.leastSquares).toBeLessThan(simple.inverse!);
    expect(findSimpleSpeeds(map.counts, { lon, lat, areas }, { speed: null, origins: [] })).toBeNull();
  });
});

it('where to look next is a layer: each county of the list once, by rank, with its outline', () => {
  const { lookNext } = analyseSpread(first());
  const layer = lookNextLayer(region, lookNext!, ['Private.']) as {
    features: { id: string; properties: { rank: number; reason: string }; geometry: { type: string } }[];
  };
  expect(layer.features.map(({ id }) => id)).toEqual(lookNext!.places.map(({ place }) => place));
  layer.features.forEach(({ properties, geometry }, i) => {
    expect(properties.rank).toBe(i + 1);
    expect(geometry.type).toMatch(/Polygon/);
  });
});
