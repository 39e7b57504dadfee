import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reassurance } from '@/lib/stats/reassurance';

describe('reassurance', () => {
  it('leaves up to 39 % after none of 6, and asks for 29 in all for a tenth', () => {
    // 1 − 0.05^(1/6) = 0.3930; 0.9^28 = 0.0523 > 0.05 ≥ 0.9^29 = 0.0471, by hand. The same 59 and 299 at 5 % and 1 %
    // stand in tables of sample sizes to detect a disease (from memory).
    const found = reassurance(0, 6)!;
    expect(found.upper).toBeCloseTo(0.39303776899708, 12);
    expect(found).toMatchObject({ needed: 29, more: 23 });
    expect(reassurance(0, 6, { target: 0.05 })!.needed).toBe(59);
    expect(reassurance(0, 6, { target: 0.01 })!.needed).toBe(299);
  });

  it('asks for the fewest with which the share at the target would be seen often enough', () => {
    fc.assert(
      fc.property(
        fc.nat(60),
        fc.double({ min: 0.01, max: 0.9, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (tested, target, level) => {
          const { needed, more, upper } = reassurance(0, tested, { target, level })!;
          let enough = 1;
          while ((1 - target) ** enough > (1 - level) * (1 + 1e-8)) enough += 1;
          expect(needed).toBe(enough);
          expect(more).toBe(Math.max(0, enough - tested));
          expect(upper <= target * (1 + 1e-7)).toBe(tested >= needed);
        },
      ),
    );
  });

  it('asks for no more than the whole number where the answer is whole', () => {
    expect(reassurance(0, 0, { target: 0.5, level: 0.75 })!.needed).toBe(2);
    expect(reassurance(0, 0, { target: 0.1, level: 0.271 })!.needed).toBe(3);
  });

  it('knows nothing before the first test, and has nothing to reassure about after a find', () => {
    expect(reassurance(0, 0)).toEqual({ upper: 1, needed: 29, more: 29 });
    expect(reassurance(1, 40)).toBeNull();
    expect(reassurance(0, 40)!.more).toBe(0);
  });

  it('refuses impossible counts and targets', () => {
    expect(() => reassurance(2, 1)).toThrow(/got 2 of 1/);
    expect(() => reassurance(1, 0)).toThrow(/got 1 of 0/);
    expect(() => reassurance(0, 1, { target: 0 })).toThrow(/Got target 0/);
  });
});
