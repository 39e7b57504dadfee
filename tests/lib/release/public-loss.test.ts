import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Clustering, Finding, FirstDetection, SpeedOfSpread } from '@/lib/findings/types';
import { publicLoss } from '@/lib/release/public-loss';
import { unwithheldFindings } from '@/lib/release/public-loss-findings';
import { facts, region } from '../findings/analysis/invented-facts';

// The land, its facts and the findings here are invented: 36 square counties in three districts, a block of nine resistant.
const input = {
  facts,
  region,
  windows: [{ first: 2022, last: 2023 }],
  closedSeasons: [2022, 2023],
  ...{ seed: 1, permutations: 199, speciesName: () => 'Invented weed' },
};
const exact = unwithheldFindings(Object.freeze(input));
const BLOCK = region.counties.map(({ fips }) => fips).filter((fips) => /^r[123]c[123]$/.test(fips));
const isMap = (finding: Finding): finding is Clustering => finding.kind === 'clustering';

describe('findings on exact counts', () => {
  it('see the block that was planted', () => {
    const map = exact.find(isMap)!;
    expect(map.verdict).toBe('lie together');
    expect(BLOCK.filter((fips) => map.where.includes(fips)).length).toBeGreaterThanOrEqual(7);
  });

  it('count each population once in its county, its district and its season', () => {
    const resistant = facts.filter(({ result }) => result === 'resistant').length;
    const local = exact.find(isMap)!.strongest!;
    expect(local.resistant).toBeLessThanOrEqual(resistant);
    expect(exact.find(isMap)!.places).toBe(36);
  });
});

describe('what public findings lose', () => {
  it('is nothing where nothing is withheld', () => {
    const loss = publicLoss(exact, exact, region);
    expect(loss.clusterings.length).toBeGreaterThan(0);
    for (const { verdict, counties } of loss.clusterings) {
      expect(verdict).toBe('same');
      expect(counties.shared).toBe(counties.exact);
      expect(counties.released).toBe(counties.exact);
    }
    for (const found of loss.detections) expect(found).toMatchObject({ kept: found.exact, vanished: [] });
    expect(loss.detections.length).toBe(2);
  });

  it('is everything where a release tells nothing', () => {
    const loss = publicLoss([], exact, region);
    expect(loss.clusterings.every(({ released, verdict }) => released === null && verdict === 'other')).toBe(
      true,
    );
    for (const found of loss.detections) expect(found.vanished).toHaveLength(found.exact);
  });

  it('counts a district that lies together as all of its counties', () => {
    const map = exact.find(isMap)!;
    const district = region.counties[0]!.district!;
    const coarse: Finding = { ...map, grain: 'district', where: [district] };
    const [loss] = publicLoss([coarse], [map], region).clusterings;
    const inside = region.counties.filter((county) => county.district === district).map(({ fips }) => fips);
    expect(loss!.counties).toEqual({
      released: inside.length,
      exact: map.where.length,
      shared: map.where.filter((fips) => inside.includes(fips)).length,
    });
  });

  it('each first find is kept, moved, told of its district alone, or gone: never two of these', () => {
    const finds = exact.filter((finding): finding is FirstDetection => finding.kind === 'first detection');
    fc.assert(
      fc.property(
        fc.array(fc.record({ keep: fc.boolean(), later: fc.boolean() }), {
          minLength: finds.length,
          maxLength: finds.length,
        }),
        (choices) => {
          const released = finds.flatMap((find, i): Finding[] => {
            if (!choices[i]!.keep) return [];
            const period = { first: find.period.last + 1, last: find.period.last + 1 };
            return [choices[i]!.later ? { ...find, period } : find];
          });
          for (const loss of publicLoss(released, exact, region).detections)
            expect(loss.kept + loss.moved + loss.byDistrict + loss.vanished.length).toBe(loss.exact);
          const own = publicLoss(released, exact, region).detections;
          const kept = own.reduce((sum, loss) => sum + loss.kept, 0);
          expect(kept).toBe(choices.filter(({ keep, later }) => keep && !later).length);
        },
      ),
    );
  });

  it('says of speeds whether their intervals have one in common', () => {
    const speed = (low: number, high: number) =>
      ({ kind: 'speed', species: 'ABCDE', group: 9, speed: (low + high) / 2, low, high }) as SpeedOfSpread;
    const none = { ...speed(0, 0), speed: null, low: null, high: null };
    const agree = (a: SpeedOfSpread, b: SpeedOfSpread) => publicLoss([a], [b], region).speeds[0]?.agree;
    expect(agree(speed(30, 50), speed(50, 60))).toBe(true);
    expect(agree(speed(30, 50), speed(51, 60))).toBe(false);
    expect(agree(none, speed(30, 50))).toBeNull();
    expect(agree(none, none)).toBeUndefined();
  });
});
