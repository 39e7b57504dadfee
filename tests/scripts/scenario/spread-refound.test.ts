import { describe, expect, it } from 'vitest';
import { nearness } from '@/lib/stats/spread/nearness';
import { type NoSpeed, type Speed, speedOfSpread } from '@/lib/stats/spread/speed/speed';
import { buildWeights } from '@/lib/stats/weights';
import { demoCounts } from '@/scripts/calibration/demo-counts';
import { byDistrict } from '@/scripts/calibration/spread/screening';

// The simulated programme of the demonstration: what was planted is its truth, and nothing is withheld here.
const demo = demoCounts(1);
const { counties, neighbours } = demo.region;
const points = {
  x: counties.map(({ lon }) => lon),
  y: counties.map(({ lat }) => lat),
  metric: 'great circle' as const,
};
const weights = buildWeights(neighbours, 'binary');

function ask(species: string, group: number) {
  const counts = demo.counts(species, group);
  const near = nearness(counts, weights);
  return { counts, near, speed: speedOfSpread({ counts, points }, { weights, nearnessP: near.p }) };
}

function byDistricts(species: string, group: number): Speed | NoSpeed {
  const { members, ...districts } = byDistrict(demo, demo.counts(species, group));
  const map = { counts: districts.counts, points, members };
  return speedOfSpread(map, { weights: districts.weights, nearnessP: null });
}

describe('the planted front (kochia × group 27)', () => {
  const { near, speed } = ask('KCHSC', 27);
  const { front } = demo.truth;

  it('is found near earlier finds, with a speed whose interval holds the planted one', () => {
    expect(near.p).toBeLessThan(1e-6);
    expect(speed).toMatchObject({ kind: 'speed' });
    const { low, high } = speed as Speed;
    expect(low).toBeLessThan(front.kmPerYear);
    expect(high).toBeGreaterThan(front.kmPerYear);
    expect((speed as Speed).fit.origins).toHaveLength(1);
  });

  it('is traced back to within 60 km of its origin', () => {
    const origin = counties.find(({ fips }) => fips === front.origin)!;
    const [found] = (speed as Speed).fit.origins;
    const east = (found!.x - origin.lon) * Math.cos((origin.lat * Math.PI) / 180);
    expect(111.2 * Math.hypot(east, found!.y - origin.lat)).toBeLessThan(60);
  });

  it('is found from district × season counts alone', () => {
    const found = byDistricts('KCHSC', 27) as Speed;
    expect(found.kind).toBe('speed');
    expect(found.low).toBeLessThan(front.kmPerYear);
    expect(found.high).toBeGreaterThan(front.kmPerYear);
    expect(found.low).toBeGreaterThan(0);
  });
});

describe('the planted introductions (Palmer amaranth × group 10)', () => {
  it('are near earlier finds, and no single speed is told', () => {
    const { near, speed } = ask('AMAPA', 10);
    expect(near.p).toBeLessThan(1e-3);
    const isSingle = speed.kind === 'speed' && speed.fit.origins.length === 1;
    expect(isSingle).toBe(false);
    expect(byDistricts('AMAPA', 10).kind).toBe('no speed');
  });
});

describe('where no spread was planted', () => {
  const standing = demo.pairs.filter(
    ({ species, group }) => !['KCHSC 27', 'AMAPA 10'].includes(`${species} ${group}`),
  );

  it.each(standing)('none is found: $species × group $group', ({ species, group }) => {
    const { near, speed } = ask(species, group);
    expect(near.p).toBeGreaterThan(0.05);
    expect(speed.kind).toBe('no speed');
  });
});
