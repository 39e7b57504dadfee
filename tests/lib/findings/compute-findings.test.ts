import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeFindings, type FindingsInput } from '@/lib/findings/compute-findings';
import { placeNeighbours } from '@/lib/findings/place-neighbours';
import type { Observation } from '@/lib/findings/types';
import { observation, PAIR, season, squareRegion } from './invented';

const region = squareRegion(3, 24);
const windows = [
  { first: 2019, last: 2021 },
  { first: 2022, last: 2024 },
];
const seasons = [2019, 2020, 2021, 2022, 2023, 2024];

/** Invented counts, few tested in the first window. */
const observations: Observation[] = [
  ...region.counties.slice(0, 12).map(({ fips }, i) => observation(fips, i % 3 === 0 ? 1 : 0, 5, windows[0])),
  ...region.counties.map(({ fips }, i) => observation(fips, i % 4, 6 + (i % 5), windows[1])),
  ...region.districts.flatMap(({ code }, i) => [
    observation(code, i % 3, 10 + i, windows[0], 'district'),
    ...seasons.map((year) => observation(code, (i + year) % 4, 9, season(year), 'district')),
  ]),
];
const input: FindingsInput = {
  observations,
  withheld: [],
  region,
  pairs: [PAIR],
  windows,
  closedSeasons: seasons,
  areas: [],
  districtPeriods: () => seasons.map(season),
  seed: 7,
  permutations: 99,
  speciesName: () => 'Kochia',
};
const findings = computeFindings(input);

describe('findings', () => {
  it('look for clusters by county where enough is known, else by district, once for each window', () => {
    const clustering = findings.filter(({ kind }) => kind === 'clustering');
    expect(clustering).toMatchObject([
      { period: windows[0], grain: 'district', places: 12, reason: null },
      { period: windows[1], grain: 'area', places: 72, reason: null },
    ]);
  });

  it('hold first detections by county × window and by district × season', () => {
    const detections = findings.filter((finding) => finding.kind === 'first detection');
    expect(
      new Set(detections.map(({ placeKind, period }) => `${placeKind} of ${period.last - period.first + 1}`)),
    ).toEqual(new Set(['county of 3', 'district of 1']));
    expect(detections[0]!.sentence).toMatch(/^Kochia, group 9: first confirmed in r\dc\d+ County, ZZ \(/);
  });

  it('compare the last two closed seasons by district', () => {
    expect(findings.filter(({ kind }) => kind === 'matched change')).toMatchObject([
      { from: 2023, to: 2024, grain: 'district', places: 12 },
    ]);
    expect(
      computeFindings({ ...input, closedSeasons: [2024] }).some(({ kind }) => kind === 'matched change'),
    ).toBe(false);
  });

  it('do not depend on the order of observations, pairs, windows or seasons', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(observations, { minLength: observations.length }), (shuffled) => {
        const other = {
          ...input,
          observations: shuffled,
          windows: windows.toReversed(),
          closedSeasons: seasons.toReversed(),
        };
        expect(computeFindings(other)).toEqual(findings);
      }),
      { numRuns: 5 },
    );
  });

  it('of a pair are the same whichever other pairs are looked at', () => {
    const others = observations.map((o) => ({ ...o, group: 14, resistant: o.tested - o.resistant }));
    const both = computeFindings({
      ...input,
      observations: [...others, ...observations],
      pairs: [{ ...PAIR, group: 14 }, PAIR],
    });
    expect(both.filter(({ group }) => group === PAIR.group)).toEqual(findings);
    expect(both.length).toBeGreaterThan(findings.length);
  });

  it('cannot depend on a withheld count: a cell that is absent changes nothing but how its own record is told', () => {
    const [hidden, ...known] = observations;
    const withheld = [
      { placeKind: hidden!.placeKind, place: hidden!.place, period: hidden!.period, ...PAIR },
    ];
    const silent = computeFindings({ ...input, observations: known });
    const told = computeFindings({ ...input, observations: known, withheld });
    const differ = told.filter((finding, i) => JSON.stringify(finding) !== JSON.stringify(silent[i]));
    expect(told).toHaveLength(silent.length);
    for (const finding of differ) {
      expect(finding).toMatchObject({
        kind: 'first detection',
        place: hidden!.place,
        how: 'earlier record not shown',
      });
    }
  });

  it('of nothing known are reasons, not errors', () => {
    const found = computeFindings({ ...input, observations: [] });
    expect(found.map(({ kind }) => kind)).toEqual([
      'clustering',
      'clustering',
      'matched change',
      'trend',
      'speed',
    ]);
    for (const finding of found) expect(finding).toMatchObject({ reason: expect.stringMatching(/\S/) });
  });

  it('take an area for one place, whose counties are known in it only', () => {
    const [first, second] = region.counties;
    const area = `${first!.fips}+${second!.fips}`;
    const joined = observations.flatMap((one) => {
      if (one.placeKind !== 'county' || one.period !== windows[1]) return [one];
      if (one.place === second!.fips) return [];
      return one.place === first!.fips ? [{ ...one, placeKind: 'area' as const, place: area }] : [one];
    });
    const areas = [{ species: PAIR.species, first: windows[1]!.first, areas: [[first!.fips, second!.fips]] }];
    const found = computeFindings({ ...input, observations: joined, areas });
    const clustering = found.find(
      (one) => one.kind === 'clustering' && one.period.first === windows[1]!.first,
    );
    expect(clustering).toMatchObject({ grain: 'area', places: 71 });
    const local = clustering?.kind === 'clustering' ? clustering.local.map(({ place }) => place) : [];
    expect(local).toContain(area);
    expect(local).not.toContain(first!.fips);
    const own = found.filter((one) => one.kind === 'first detection' && one.place === first!.fips);
    expect(own.every((one) => one.kind === 'first detection' && one.period.first < windows[1]!.first)).toBe(
      true,
    );
  });

  it('are made by county only, with a reason, in a region without districts', () => {
    const bare = {
      ...region,
      districts: [],
      counties: region.counties.map((county) => ({ ...county, district: null })),
    };
    const county = observations.filter(({ placeKind }) => placeKind === 'county');
    expect(computeFindings({ ...input, region: bare, observations: county })[0]).toMatchObject({
      grain: 'area',
      global: null,
      reason: expect.stringMatching(/counties and areas with a known count/),
    });
  });
});

describe('neighbours of places', () => {
  it('are those of the region for counties', () => {
    expect(placeNeighbours(region, ({ fips }) => fips).get('r1c3')).toEqual(['r0c3', 'r1c2', 'r1c4', 'r2c3']);
  });

  it('are, for districts, those with a pair of touching counties', () => {
    expect(placeNeighbours(region, ({ district }) => district).get('d0')).toEqual(['d1']);
    expect(placeNeighbours(region, ({ district }) => district).get('d5')).toEqual(['d4', 'd6']);
  });
});
