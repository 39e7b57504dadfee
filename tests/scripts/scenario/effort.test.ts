import { describe, expect, it } from 'vitest';
import { kmBetween } from '@/scripts/scenario/distance';
import { PARAMETERS } from '@/scripts/scenario/parameters';
import { scenarioRegion } from '@/scripts/scenario/sizes';
import { fourErrors, populationsOf, readScenario } from './read-scenario';

const region = scenarioRegion('default');
const { scenario, rows, counts } = readScenario('default', 1);
const { effort, cleanThenFound, front } = scenario.truth;
const populations = populationsOf(rows);
const countyOf = new Map(region.counties.map((county) => [county.fips, county]));
const sentBy = new Map<string, number>();
for (const { truth } of populations) sentBy.set(truth.county, (sentBy.get(truth.county) ?? 0) + 1);

describe('effort is uneven as planted', () => {
  it('a quarter of the counties sends nothing, all others something', () => {
    expect(effort.sendNothing).toHaveLength(82);
    expect(effort.sendNothing.filter((fips) => sentBy.has(fips))).toEqual([]);
    expect(counts.counties).toBe(328 - 82);
  });

  it('listed counties send one population, and listed ones have one operation', () => {
    expect(effort.onePopulation.map((fips) => sentBy.get(fips))).toEqual(effort.onePopulation.map(() => 1));
    for (const county of effort.oneOperation) {
      const operations = new Set(
        populations
          .filter(({ truth }) => truth.county === county)
          .map(({ cells }) => cells['Grower/Operation'])
          .filter((id) => id !== ''),
      );
      expect(operations.size, county).toBe(1);
      expect(sentBy.get(county)!, county).toBeGreaterThan(1);
    }
  });

  it('counties near a campus send about three times what others of their longitude send', () => {
    const isNear = (fips: string) =>
      effort.campuses.some(
        (c) => kmBetween(countyOf.get(c)!, countyOf.get(fips)!) <= PARAMETERS.campusReachKm,
      );
    const eastern = region.counties.filter(
      ({ lon, fips }) => lon > -100 && !effort.sendNothing.includes(fips),
    );
    const mean = (near: boolean) => {
      const some = eastern.filter(({ fips }) => isNear(fips) === near);
      return some.reduce((sum, { fips }) => sum + (sentBy.get(fips) ?? 0), 0) / some.length;
    };
    expect(mean(true) / mean(false)).toBeGreaterThan(2);
    expect(mean(true) / mean(false)).toBeLessThan(4);
  });

  it('the western quarter of the counties sends less than a third of what the eastern quarter sends', () => {
    const lons = region.counties.map(({ lon }) => lon).sort((a, b) => a - b);
    const quarter = Math.floor(lons.length / 4);
    const sent = (inside: (lon: number) => boolean) =>
      populations.filter(({ truth }) => inside(countyOf.get(truth.county)!.lon)).length;
    expect(3 * sent((lon) => lon < lons[quarter]!)).toBeLessThan(sent((lon) => lon >= lons.at(-quarter)!));
  });

  it('one operation sends a quarter of its county’s seed', () => {
    const here = populations.filter(({ truth }) => truth.county === effort.oneSender.county);
    const own = here.filter(({ cells }) => cells['Grower/Operation'] === effort.oneSender.operation);
    expect(Math.abs(own.length / here.length - 0.25)).toBeLessThan(fourErrors(0.25, here.length));
    expect(here.length).toBeGreaterThan(30);
  });

  it('effort for a species doubles in the season after a first detection next door', () => {
    const seeking = populations.filter(
      ({ truth, cells }) => truth.species === front.species && cells.Design !== 'random',
    );
    const first = new Map<string, number>();
    for (const { truth, fault } of rows) {
      if (truth.species !== front.species || truth.group !== front.group || !truth.resistant) continue;
      if (fault?.kind === 'not viable') continue;
      first.set(truth.county, Math.min(first.get(truth.county) ?? Number.POSITIVE_INFINITY, truth.season));
    }
    // Expected populations by county and season if effort were flat, from the county's share in all seasons.
    const seasons = scenario.truth.seasons.map(({ season }) => season);
    const inSeason = (season: number) => seeking.filter(({ truth }) => truth.season === season);
    const share = new Map<string, number>();
    for (const { truth } of seeking)
      share.set(truth.county, (share.get(truth.county) ?? 0) + 1 / seeking.length);
    let [after, expectedAfter] = [0, 0];
    for (const season of seasons.slice(1)) {
      const sent = inSeason(season);
      region.counties.forEach(({ fips }, i) => {
        if (!region.neighbours[i]!.some((n) => first.get(region.counties[n]!.fips) === season - 1)) return;
        after += sent.filter(({ truth }) => truth.county === fips).length;
        expectedAfter += sent.length * (share.get(fips) ?? 0);
      });
    }
    expect(expectedAfter).toBeGreaterThan(100);
    expect(after / expectedAfter).toBeGreaterThan(1.25);
    expect(after / expectedAfter).toBeLessThan(2);
  });

  it('some advisers send for several operations', () => {
    const byAdviser = new Map<string, Set<string>>();
    for (const { cells } of populations) {
      if (!cells['Sent by'].startsWith('AD-')) continue;
      const served = byAdviser.get(cells['Sent by']) ?? new Set();
      byAdviser.set(cells['Sent by'], served.add(cells['Grower/Operation']));
    }
    expect([...byAdviser.values()].filter((served) => served.size > 2).length).toBeGreaterThan(50);
  });

  it('operation ids say nothing of the place: neighbours in number are not neighbours on the map', () => {
    const countyOfOperation = new Map(
      populations.map(({ cells, truth }) => [cells['Grower/Operation'], truth.county]),
    );
    const inOrder = [...countyOfOperation].filter(([id]) => id !== '').sort(([a], [b]) => (a < b ? -1 : 1));
    const together = inOrder.filter(([, county], i) => inOrder[i - 1]?.[1] === county).length;
    expect(together / inOrder.length).toBeLessThan(0.03);
  });

  it('the county that turns is clean one season and full of survivors the next, from several operations', () => {
    const of = (season: number) =>
      rows.filter(
        ({ truth, fault }) =>
          truth.county === cleanThenFound.county &&
          truth.species === cleanThenFound.species &&
          truth.group === cleanThenFound.group &&
          truth.season === season &&
          fault === null,
      );
    const clean = of(cleanThenFound.clean);
    const found = of(cleanThenFound.found);
    expect(clean.length).toBeGreaterThanOrEqual(5);
    expect(clean.filter(({ truth }) => truth.resistant)).toEqual([]);
    expect(found.length).toBeGreaterThanOrEqual(5);
    expect(found.filter(({ truth }) => truth.resistant).length / found.length).toBeGreaterThan(0.7);
    for (const some of [clean, found]) {
      expect(new Set(some.map(({ cells }) => cells['Grower/Operation'])).size).toBeGreaterThanOrEqual(4);
    }
  });
});
