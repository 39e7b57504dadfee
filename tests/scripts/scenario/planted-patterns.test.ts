import { describe, expect, it } from 'vitest';
import { kmBetween } from '@/scripts/scenario/distance';
import type { ScenarioRow } from '@/scripts/scenario/sheet';
import { scenarioRegion } from '@/scripts/scenario/sizes';
import { type FrontCount, fitFront } from './front-fit';
import { fourErrors, readScenario } from './read-scenario';

const region = scenarioRegion('default');
const countyOf = new Map(region.counties.map((county) => [county.fips, county]));
const { scenario, rows, counts } = readScenario('default', 1);
const { truth } = scenario;

/** Latent truth of each population against each group: true where it is resistant to any active of it. */
function byPopulation(
  some: readonly ScenarioRow[],
): Map<string, { row: ScenarioRow; groups: Map<number, boolean> }> {
  const populations = new Map<string, { row: ScenarioRow; groups: Map<number, boolean> }>();
  for (const row of some) {
    const sample = row.cells['Sample #'];
    const known = populations.get(sample) ?? { row, groups: new Map() };
    known.groups.set(row.truth.group, known.groups.get(row.truth.group) === true || row.truth.resistant);
    populations.set(sample, known);
  }
  return populations;
}

const populations = [...byPopulation(rows).values()];

describe('planted shares', () => {
  it('where a share is the same everywhere, each season’s populations keep to it within binomial error', () => {
    const even = truth.pairs.filter(({ shares }) => shares !== null);
    expect(even).toHaveLength(14);
    for (const { species, group, shares } of even) {
      for (const sum of counts.screened.filter((one) => one.species === species && one.group === group)) {
        const share = shares![sum.season]!;
        const off = Math.abs(sum.resistant / sum.populations - share);
        expect(off, `${species} × ${group} in ${sum.season}`).toBeLessThanOrEqual(
          fourErrors(share, sum.populations),
        );
      }
    }
  });

  it('wild oat rises from 10 % in the first to 45 % in the twelfth season', () => {
    const shares = truth.pairs.find(({ species }) => species === 'AVEFA')!.shares!;
    expect([shares[2013], shares[2024], shares[2025]]).toEqual([0.1, 0.45, 0.45]);
  });

  it('horseweed is resistant at 55 and 70 %', () => {
    const shares = (group: number) =>
      truth.pairs.find((pair) => pair.species === 'ERICA' && pair.group === group)!.shares!;
    expect(shares(2)[2020]).toBeCloseTo(0.55, 3);
    expect(shares(9)[2020]).toBeCloseTo(0.7, 3);
  });

  it('johnsongrass: a cluster of 35 counties at 60 %, 10 % elsewhere, a sixth of what is sent', () => {
    const { counties, inside, outside } = truth.standingCluster;
    expect(counties).toHaveLength(35);
    const sorha = populations.filter(({ row }) => row.truth.species === 'SORHA');
    expect(sorha.length / populations.length).toBeCloseTo(1 / 6, 2);
    for (const within of [true, false]) {
      const some = sorha.filter(({ row }) => counties.includes(row.truth.county) === within);
      const share = some.filter(({ groups }) => groups.get(2)).length / some.length;
      const planted = within ? inside : outside;
      expect(Math.abs(share - planted)).toBeLessThan(fourErrors(planted, some.length));
    }
  });

  it('Russian thistle: none resistant among about 240 screened', () => {
    const thistle = counts.screened.filter(({ species }) => species === 'SASKR');
    expect(thistle.reduce((sum, { resistant }) => sum + resistant, 0)).toBe(0);
    const screened = thistle.reduce((sum, { populations }) => sum + populations, 0);
    expect(Math.abs(screened - 240)).toBeLessThan(15);
    expect(rows.filter(({ truth }) => truth.species === 'SASKR' && truth.result === 'resistant')).toEqual([]);
  });

  it('groups come together in one population as often as planted, and more often than chance', () => {
    for (const { species, groups, share, ifIndependent } of truth.together) {
      const screened = populations.filter(
        (one) => one.row.truth.species === species && groups.every((group) => one.groups.has(group)),
      );
      const all = screened.filter((one) => groups.every((group) => one.groups.get(group))).length;
      expect(Math.abs(all / screened.length - share), `${species} × ${groups}`).toBeLessThan(
        fourErrors(share, screened.length),
      );
      expect(share).toBeGreaterThan(ifIndependent);
    }
  });

  it('dicamba and fluroxypyr disagree in the listed counties and hardly elsewhere', () => {
    const { species, group, actives, counties } = truth.activesDisagree;
    expect(actives).toEqual(['dicamba', 'fluroxypyr']);
    const tested = new Map<string, { county: string; resistant: boolean[] }>();
    for (const { truth: t, cells } of rows) {
      if (t.species !== species || t.group !== group) continue;
      const known = tested.get(cells['Sample #']) ?? { county: t.county, resistant: [false, false] };
      if (t.active !== null) known.resistant[actives.indexOf(t.active)] = t.resistant;
      tested.set(cells['Sample #'], known);
    }
    const share = (within: boolean) => {
      const resistant = [...tested.values()].filter(
        (one) => counties.includes(one.county) === within && one.resistant.some(Boolean),
      );
      return resistant.filter((one) => one.resistant[0] !== one.resistant[1]).length / resistant.length;
    };
    expect(share(true)).toBeGreaterThan(0.6);
    expect(share(false)).toBeLessThan(0.2);
  });
});

describe('what moves', () => {
  it('the front starts at its origin and reaches counties at 40 km a year, scattered by a year', () => {
    const { origin, arrivals, kmPerYear, originSeason } = truth.front;
    expect(kmPerYear).toBe(40);
    expect(originSeason).toBe(2014);
    expect(arrivals[origin]).toBe(2014);
    const lags = Object.entries(arrivals)
      .map(([fips, arrival]) => ({ km: kmBetween(countyOf.get(origin)!, countyOf.get(fips)!), arrival }))
      .filter(({ km }) => km > 100)
      .map(({ km, arrival }) => arrival - 2014 - km / 40);
    const mean = lags.reduce((sum, lag) => sum + lag, 0) / lags.length;
    const sd = Math.sqrt(lags.reduce((sum, lag) => sum + (lag - mean) ** 2, 0) / (lags.length - 1));
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(lags.length));
    expect(sd).toBeGreaterThan(0.85);
    expect(sd).toBeLessThan(1.15);
  });

  it('nobody is resistant before the front, three quarters are well behind it', () => {
    const kochia = populations.filter(({ row }) => row.truth.species === 'KCHSC');
    const since = ({ row }: (typeof kochia)[number]) =>
      row.truth.season - truth.front.arrivals[row.truth.county]!;
    // Arrivals are kept to two decimals.
    const before = kochia.filter((one) => since(one) < -0.01);
    const behind = kochia.filter((one) => since(one) > 6);
    expect(before.length).toBeGreaterThan(500);
    expect(before.filter(({ groups }) => groups.get(27))).toEqual([]);
    const share = behind.filter(({ groups }) => groups.get(27)).length / behind.length;
    expect(Math.abs(share - 0.745)).toBeLessThan(fourErrors(0.745, behind.length));
  });

  it.each([1, 2, 3])(
    'its speed can be recovered from tested and resistant by county and season (seed %i)',
    (seed) => {
      const { front } = readScenario('default', seed).scenario.truth;
      const cells = new Map<string, FrontCount>();
      for (const { row, groups } of [...byPopulation(readScenario('default', seed).rows).values()]) {
        if (row.truth.species !== front.species) continue;
        const { county, season } = row.truth;
        const km = kmBetween(countyOf.get(front.origin)!, countyOf.get(county)!);
        const cell = cells.get(`${county}|${season}`) ?? { km, season, tested: 0, resistant: 0 };
        cell.tested++;
        if (groups.get(27)) cell.resistant++;
        cells.set(`${county}|${season}`, cell);
      }
      const { best, low, high } = fitFront([...cells.values()], front.originSeason);
      expect(Math.abs(best - 40)).toBeLessThanOrEqual(6);
      expect(low).toBeLessThanOrEqual(41);
      expect(high).toBeGreaterThanOrEqual(39);
    },
  );

  it('Palmer amaranth has three origins far apart, grows from county to county, and jumps now and then', () => {
    const { origins, jumps, arrivals } = truth.introductions;
    expect(origins).toHaveLength(3);
    for (const [i, a] of origins.entries()) {
      expect(arrivals[a.county]).toBe(a.season);
      for (const b of origins.slice(i + 1)) {
        expect(kmBetween(countyOf.get(a.county)!, countyOf.get(b.county)!)).toBeGreaterThan(150);
      }
    }
    expect(jumps.length).toBeGreaterThan(0);
    const started = new Set([...origins.map(({ county }) => county), ...jumps.map(({ to }) => to)]);
    const index = new Map(region.counties.map(({ fips }, i) => [fips, i]));
    for (const [fips, arrival] of Object.entries(arrivals)) {
      if (started.has(fips)) continue;
      const earlier = region.neighbours[index.get(fips)!]!.some((n) => {
        const there = arrivals[region.counties[n]!.fips];
        return there !== undefined && there < arrival;
      });
      expect(earlier, fips).toBe(true);
    }
  });

  it('Palmer amaranth is found only where and when it has arrived', () => {
    const found = populations.filter(({ row, groups }) => row.truth.species === 'AMAPA' && groups.get(10));
    expect(found.length).toBeGreaterThan(50);
    for (const { row } of found) {
      expect(row.truth.season).toBeGreaterThanOrEqual(truth.introductions.arrivals[row.truth.county]!);
    }
  });
});
