import { describe, expect, it } from 'vitest';
import type { Fact } from '@/lib/cube/types';
import { drawAreas } from '@/lib/disclosure/areas/draw-areas';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { areaKey } from '@/lib/geography/areas';
import { loadRegion } from '@/lib/geography/region';
import { Random } from '@/lib/stats/random';

// Real counties of Kansas in invented districts; samples are invented.
const kansas = loadRegion({ name: 'Kansas', states: ['KS'] });
const region = {
  ...kansas,
  counties: kansas.counties.map((county) => ({
    ...county,
    district: `KS-${Math.floor((county.lon + 102.1) / 2.6)}${county.lat > 38.5 ? 'N' : 'S'}`,
  })),
};
const WINDOW = { first: 2022, last: 2024 };

function invented(samples: number, seed: number): Fact[] {
  const random = new Random(seed);
  // Half of the samples come from a third of the counties.
  const busy = region.counties.filter(() => random.below(3) === 0);
  return Array.from({ length: samples }, (_, i) => {
    const from = random.below(2) === 0 ? busy : region.counties;
    const county = from[random.below(from.length)]!;
    return {
      ...{
        population: `p${i}`,
        county: county.fips,
        season: 2022 + random.below(3),
        species: 'KCHSC',
        group: 9,
      },
      ...{
        assay: 'whole plant',
        design: 'submitted',
        crop: null,
        funder: null,
        actives: [],
        publicShare: true,
      },
      operation: `${county.fips}-${random.below(40)}`,
      result: random.uniform() < 0.3 ? 'resistant' : 'susceptible',
    };
  });
}

const draw = (facts: Fact[]) =>
  drawAreas({ facts, region, windows: [WINDOW], policy: DEFAULT_POLICY })[0]!.areas;
const inside = (facts: Fact[]) => {
  const counts = new Map<string, Set<string>>();
  const tested = new Map<string, number>();
  const of = new Map(draw(facts).flatMap((area) => area.map((fips) => [fips, areaKey(area)])));
  for (const { county, operation } of facts) {
    const area = of.get(county)!;
    counts.set(area, (counts.get(area) ?? new Set()).add(operation!));
    tested.set(area, (tested.get(area) ?? 0) + 1);
  }
  const shown = [...tested].filter(([area, n]) => n >= 5 && counts.get(area)!.size >= 5);
  return shown.reduce((sum, [, n]) => sum + n, 0) / facts.length;
};

describe('areas', () => {
  it('hold every screened county once, each in one district, and look at no outcome', () => {
    const facts = invented(200, 1);
    const areas = draw(facts);
    expect(areas.flat().sort()).toEqual([...new Set(facts.map(({ county }) => county))].sort());
    const districtOf = new Map(region.counties.map(({ fips, district }) => [fips, district]));
    for (const area of areas) expect(new Set(area.map((fips) => districtOf.get(fips))).size).toBe(1);
    const turned = facts.map(
      (fact): Fact => ({ ...fact, result: fact.result === 'resistant' ? 'susceptible' : 'resistant' }),
    );
    expect(draw(turned)).toEqual(areas);
  });

  // The promise (P7) of the design, on 105 counties.
  it('show 99 % of 150 populations of a window, and 90 % of 75', () => {
    for (const [samples, least] of [
      [150, 0.99],
      [75, 0.9],
    ] as const) {
      const shares = Array.from({ length: 10 }, (_, seed) => inside(invented(samples, seed + 1)));
      expect(shares.reduce((a, b) => a + b) / shares.length).toBeGreaterThanOrEqual(least);
    }
  });

  it('keep their counties when a county is screened too late for them', () => {
    const facts = invented(150, 2);
    const [kept] = drawAreas({ facts, region, windows: [WINDOW], policy: DEFAULT_POLICY });
    const screened = new Set(facts.map(({ county }) => county));
    const other = region.counties.find(({ fips }) => !screened.has(fips))!.fips;
    const late = [...facts, { ...facts[0]!, population: 'late', county: other }];
    const [again] = drawAreas({
      facts: late,
      region,
      windows: [WINDOW],
      policy: DEFAULT_POLICY,
      kept: [kept!],
    });
    expect(again!.areas).toEqual([...kept!.areas, [other]]);
  });

  it('of a district that does not pass as a whole are one', () => {
    const two = [
      { ...invented(1, 1)[0]!, county: '20001' },
      { ...invented(1, 1)[0]!, population: 'b', county: '20205' },
    ];
    expect(draw(two)).toEqual([['20001', '20205']]);
  });
});
