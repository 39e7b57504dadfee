import { describe, expect, it } from 'vitest';
import { checkPolicy, DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { isPrimary, type Judged } from '@/lib/disclosure/primary';

// Invented cells at the edges of the rule.
const fair: Judged = { tested: 10, resistant: 4, operations: 6, largestOperation: 3 };
const withheld = (over: Partial<Judged>) => isPrimary({ ...fair, ...over }, DEFAULT_POLICY);

describe('the primary rule', () => {
  it('shows a fair cell, and a place where nothing was screened', () => {
    expect(withheld({})).toBe(false);
    expect(withheld({ tested: 0, resistant: 0, operations: 0, largestOperation: 0 })).toBe(false);
  });

  it('(a) withholds fewer than five populations', () => {
    expect(withheld({ tested: 4, resistant: 2, operations: 4, largestOperation: 1 })).toBe(true);
    expect(withheld({ tested: 5, resistant: 2, operations: 5, largestOperation: 1 })).toBe(false);
  });

  it('(b) withholds fewer than three operations', () => {
    expect(withheld({ operations: 2, largestOperation: 5 })).toBe(true);
    expect(withheld({ operations: 3, largestOperation: 5 })).toBe(false);
  });

  it('(c) withholds a cell of which one operation sent more than the limit share', () => {
    expect(withheld({ largestOperation: 6 })).toBe(false);
    expect(withheld({ largestOperation: 7 })).toBe(true);
  });

  it('(d) withholds all, all but one or none resistant below five operations', () => {
    for (const resistant of [0, 9, 10]) {
      expect(withheld({ resistant, operations: 4 })).toBe(true);
      expect(withheld({ resistant, operations: 5 })).toBe(false);
    }
    for (const resistant of [1, 8]) expect(withheld({ resistant, operations: 4 })).toBe(false);
  });
});

describe('a policy', () => {
  it('may be stricter than the defaults and never looser', () => {
    expect(() => checkPolicy(DEFAULT_POLICY)).not.toThrow();
    expect(() => checkPolicy({ ...DEFAULT_POLICY, minimumTested: 11, minimumOperations: 5 })).not.toThrow();
    expect(() => checkPolicy({ ...DEFAULT_POLICY, minimumTested: 4 })).toThrow(/minimumTested/);
    expect(() => checkPolicy({ ...DEFAULT_POLICY, minimumOperations: 2 })).toThrow(/minimumOperations/);
    expect(() => checkPolicy({ ...DEFAULT_POLICY, unanimousOperations: 4 })).toThrow(/unanimousOperations/);
    expect(() => checkPolicy({ ...DEFAULT_POLICY, dominanceShare: 0 })).toThrow(/dominanceShare/);
  });
});
