import { describe, expect, it } from 'vitest';
import { connectedPieces } from '@/scripts/scenario/partition-state';
import { scenarioRegion } from '@/scripts/scenario/sizes';

describe('invented districts of every state', () => {
  it('hold each county once, in its own state, and are as large as those of the demonstration', () => {
    const { counties, districts, neighbours } = scenarioRegion('national');
    const held = districts.flatMap((district) => district.counties);
    expect(new Set(held)).toEqual(new Set(counties.map(({ fips }) => fips)));
    expect(held).toHaveLength(counties.length);
    const at = new Map(counties.map(({ fips }, i) => [fips, i]));
    const sizes = districts.map((district) => {
      const members = district.counties.map((fips) => at.get(fips)!);
      expect(members.every((i) => counties[i]!.state === district.state)).toBe(true);
      return { pieces: connectedPieces(members, neighbours).length, size: members.length };
    });
    expect(Math.max(...sizes.map(({ size }) => size))).toBeLessThanOrEqual(20);
    // Islands hang apart whatever they are put with.
    expect(sizes.filter(({ pieces }) => pieces > 1).length / sizes.length).toBeLessThan(0.05);
  });
});
