import { describe, expect, it } from 'vitest';
import { mantelTest, spaceTimeMantel } from '@/lib/stats/space-time/mantel';
import disease from './knox-meningococcal.json';
import lichen from './mantel-lichen.json';

describe('Mantel', () => {
  it('has r and p of lichen pastures against their soil', () => {
    const found = mantelTest(lichen.vegetation, lichen.soil, { permutations: 9999, seed: 1 });
    expect(found.r).toBeCloseTo(lichen.expected.r, 9);
    expect(Math.abs(found.pGreater - lichen.expected.mc_p_greater)).toBeLessThan(0.001);
    expect(found.movable).toBe(24);
  });

  it('has r and p of meningococcal disease in space and time, as distances and as reciprocals', () => {
    const events = { ...disease, metric: 'plane' } as const;
    const found = spaceTimeMantel(events, { permutations: 999, seed: 3 });
    expect(found.r).toBeCloseTo(disease.expected.mantel_r, 9);
    // Two runs of 999 at p near 0.44: three times 0.0157 · √2.
    expect(Math.abs(found.pGreater - disease.expected.mantel_p_greater)).toBeLessThan(0.067);
    const near = spaceTimeMantel(events, { permutations: 9, seed: 3, closeness: { space: 50, time: 30 } });
    expect(near.r).toBeCloseTo(disease.expected.mantel_reciprocal_r, 9);
  });
});
