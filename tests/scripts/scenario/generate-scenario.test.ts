import { describe, expect, it } from 'vitest';
import { generateScenario } from '@/scripts/scenario/generate-scenario';
import { scenarioRegion } from '@/scripts/scenario/sizes';
import { digest, populationsOf, readScenario } from './read-scenario';

const { scenario, rows, counts } = readScenario('default', 1);
const region = scenarioRegion('default');

describe('a scenario is its size, its seed and its region', () => {
  it('the same seed gives the same bytes, however often its sheets are read', () => {
    const again = generateScenario({ size: 'small', seed: 7, region: scenarioRegion('small') });
    const once = [...again.sheets].map(({ season, rows }) => [season, digest(rows)]);
    const twice = [...again.sheets].map(({ season, rows }) => [season, digest(rows)]);
    expect(twice).toEqual(once);
    const other = readScenario('small', 7);
    expect(digest(other.rows)).toBe(digest([...again.sheets].flatMap((sheet) => [...sheet.rows])));
    expect(other.scenario.truth).toEqual(again.truth);
  });

  it('another seed gives other bytes and plants elsewhere', () => {
    const other = readScenario('default', 2);
    expect(digest(other.rows)).not.toBe(digest(rows));
    expect(other.scenario.truth.front.arrivals).not.toEqual(scenario.truth.front.arrivals);
    expect(other.scenario.truth.effort.sendNothing).not.toEqual(scenario.truth.effort.sendNothing);
  });

  it('refuses a seed that is no whole number and a region too small to plant in', () => {
    expect(() => generateScenario({ size: 'small', seed: 1.5, region })).toThrow(/whole number/);
    const few = { ...region, counties: region.counties.slice(0, 12) };
    expect(() => generateScenario({ size: 'small', seed: 1, region: few })).toThrow(/12 counties/);
  });
});

describe('sizes', () => {
  it('default: 8,000 populations, 250 in 2013 to 1,000 in 2024, half of 2025’s 1,000, about 3,500 operations', () => {
    const bySeason = new Map<number, number>();
    for (const { truth } of populationsOf(rows))
      bySeason.set(truth.season, (bySeason.get(truth.season) ?? 0) + 1);
    expect(counts.populations).toBe(8000);
    expect([...bySeason.keys()]).toEqual([
      2013, 2014, 2015, 2016, 2017, 2018, 2019, 2020, 2021, 2022, 2023, 2024, 2025,
    ]);
    expect([bySeason.get(2013), bySeason.get(2024), bySeason.get(2025)]).toEqual([250, 1000, 500]);
    expect(Math.abs(counts.operations - 3500)).toBeLessThan(200);
  });

  it('small: the 66 counties of South Dakota, 120 populations in each of six closed seasons', () => {
    const small = readScenario('small', 1);
    expect(small.scenario.truth.region).toMatchObject({ states: ['SD'], counties: 66 });
    expect(small.scenario.truth.seasons.map(({ season }) => season)).toEqual([
      2019, 2020, 2021, 2022, 2023, 2024,
    ]);
    expect(small.counts.populations).toBe(720);
    expect(small.scenario.truth.seasons.some(({ open }) => open)).toBe(false);
  });

  it('rich: ten times the default, season by season', () => {
    const { truth } = generateScenario({ size: 'rich', seed: 1, region });
    for (const [i, { season, received }] of truth.seasons.entries()) {
      // both are rounded to whole populations
      expect(
        Math.abs(received - 10 * scenario.truth.seasons[i]!.received),
        String(season),
      ).toBeLessThanOrEqual(5);
    }
  });

  it('national: 3,142 counties, 20 seasons, 150 pairs, 250,000 records in a season’s sheet', () => {
    const national = generateScenario({ size: 'national', seed: 1, region: scenarioRegion('national') });
    expect(national.truth.region.counties).toBe(3142);
    expect(national.truth.seasons).toHaveLength(20);
    expect(national.truth.pairs).toHaveLength(150);
    expect(new Set(national.truth.pairs.map(({ species, group }) => `${species}|${group}`)).size).toBe(150);
    const [first] = national.sheets;
    let records = 0;
    for (const _ of first!.rows) records++;
    expect(records).toBe(250_000);
  });
});
