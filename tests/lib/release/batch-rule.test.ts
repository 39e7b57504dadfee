import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Fact } from '@/lib/cube/types';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { isPrimary } from '@/lib/disclosure/primary';
import { type Move, shortfallOf } from '@/lib/release/batch-rule';
import { sample } from './support/series';

// Invented. Rule: design of disclosure control, policy 8 (three operations, five populations for each changed cell) and 3.
const results: Fact['result'][] = ['resistant', 'susceptible', 'resistant', 'some survivors', 'susceptible'];
const entering = (n: number, over: (i: number) => Partial<Fact> = () => ({})): Move[] =>
  Array.from({ length: n }, (_, i) => ({
    before: null,
    after: sample(`P${i}`, { result: results[i % 5]!, ...over(i) }),
  }));
const rule = (moves: Move[], hasReceipt = false) => shortfallOf(moves, hasReceipt, DEFAULT_POLICY);

describe('the batch rule', () => {
  it('lets five of five operations enter, or leave, and four not', () => {
    const five = entering(5);
    expect(rule(five)).toBeNull();
    expect(rule(five.map(({ after }) => ({ before: after, after: null })))).toBeNull();
    expect(rule(entering(4))).toBe('too few populations');
  });

  it('asks for three operations, and that none sent most', () => {
    expect(rule(entering(6, (i) => ({ operation: `farm ${i % 2}` })))).toBe('too few operations');
    expect(rule(entering(9, (i) => ({ operation: `farm ${Math.max(0, i - 6)}` })))).toBe('one operation');
  });

  it('counts samples without an operation as of one unknown operation of their county', () => {
    expect(rule(entering(7, () => ({ operation: null })))).toBe('too few operations');
  });

  it('lets samples that are alike enter from five operations on', () => {
    const alike = (operations: number) =>
      entering(6, (i) => ({ result: 'resistant', operation: `farm ${i % operations}` }));
    expect(rule(alike(4))).toBe('alike');
    expect(rule(alike(5))).toBeNull();
  });

  it('takes a corrected result for one that leaves and one that enters, and its population once', () => {
    const corrected = (n: number) =>
      entering(n).map(({ after }, i): Move => {
        const other = after!.result === 'resistant' ? 'susceptible' : 'resistant';
        return { before: after, after: { ...after!, result: other, operation: `farm ${i}` } };
      });
    expect(rule(corrected(4))).toBe('too few populations');
    expect(rule(corrected(5))).toBeNull();
  });

  it('lets untested samples wait only where what was received is shown', () => {
    const untested = entering(2, () => ({ result: 'not testable' }));
    expect(rule(untested)).toBeNull();
    expect(rule(untested, true)).toBe('too few populations');
  });

  it('never lets enter what the primary rule would forbid as a cell of its own', () => {
    const moves = fc.array(fc.record({ resistant: fc.boolean(), farm: fc.integer({ min: 0, max: 6 }) }), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(moves, (drawn) => {
        const senders = new Map<number, number>();
        for (const { farm } of drawn) senders.set(farm, (senders.get(farm) ?? 0) + 1);
        const cell = {
          tested: drawn.length,
          resistant: drawn.filter(({ resistant }) => resistant).length,
          operations: senders.size,
          largestOperation: Math.max(...senders.values()),
        };
        const found = rule(
          drawn.map(({ resistant, farm }, i) => ({
            before: null,
            after: sample(`P${i}`, {
              result: resistant ? 'resistant' : 'susceptible',
              operation: `farm ${farm}`,
            }),
          })),
        );
        expect(found === null).toBe(!isPrimary(cell, DEFAULT_POLICY));
      }),
      { numRuns: 300, seed: 5 },
    );
  });
});
