import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CASE_DEFINITIONS, caseDefinitionOn, resultOf } from '@/lib/vocabulary/case-definition';
import { poolRuns } from '@/lib/vocabulary/pool-runs';
import type { Assay } from '@/lib/vocabulary/terms';

const definition = CASE_DEFINITIONS[0]!;
const result = (rateMultiple: number | null, alive: number, treated: number, assay: Assay = 'whole plant') =>
  resultOf(definition, { assay, rateMultiple, treated, alive });

// Rule P16 of the programme: survivors of 20 % or more are resistant; more than none and fewer, some survivors.
describe('the case definition', () => {
  it.each([
    [1, 8, 40, 'resistant'],
    [1, 7, 40, 'some survivors'],
    [1, 0, 40, 'susceptible'],
    [2, 9, 40, 'resistant'],
    [3, 1, 120, 'some survivors'],
    [4, 0, 40, 'inconclusive'],
    [0.5, 0, 40, 'susceptible'],
    [0.5, 6, 40, 'inconclusive'],
    [0.5, 40, 40, 'inconclusive'],
  ] as const)('at %s x, %s of %s alive: %s', (rate, alive, treated, expected) => {
    expect(result(rate, alive, treated)).toBe(expected);
    expect(result(rate, alive, treated, 'soil-applied')).toBe(expected);
  });

  it('leaves no gap below 20 % and is exact at it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), fc.integer({ min: 1, max: 5000 }), (alive, treated) => {
        if (alive > treated) return;
        expect(result(1, alive, treated)).toBe(5 * alive >= treated ? 'resistant' : 'some survivors');
      }),
    );
  });

  it('of a molecular assay asks for one plant with a known mutation', () => {
    expect(result(null, 1, 10, 'molecular')).toBe('resistant');
    expect(result(1, 0, 3, 'molecular')).toBe('susceptible');
  });

  it('is dated, named, and in order of its days', () => {
    expect(caseDefinitionOn('2026-11-20').version).toBe(definition.version);
    expect(caseDefinitionOn('1999-01-01')).toBe(definition);
    const days = CASE_DEFINITIONS.map(({ from }) => from);
    expect(days).toEqual([...days].sort());
    expect(new Set(CASE_DEFINITIONS.map(({ version }) => version)).size).toBe(days.length);
  });
});

describe('several runs of one test', () => {
  const run = (alive: number, treated: number, rateMultiple = 1) => ({
    assay: 'whole plant' as const,
    rateMultiple,
    treated,
    alive,
  });

  it('are judged by all plants together', () => {
    expect(poolRuns(definition, [run(3, 40), run(5, 40)])).toEqual({
      kind: 'pooled',
      treated: 80,
      alive: 8,
      result: 'some survivors',
    });
  });

  it('are a question where they alone would differ', () => {
    expect(poolRuns(definition, [run(22, 40), run(3, 40)])).toEqual({
      kind: 'question',
      results: ['resistant', 'some survivors'],
      pooled: 'resistant',
    });
  });

  it('that agree alone agree pooled', () => {
    const runs = fc.array(
      fc.integer({ min: 10, max: 60 }).chain((n) => fc.nat(n).map((alive) => run(alive, n))),
      { minLength: 1, maxLength: 4 },
    );
    fc.assert(
      fc.property(runs, (list) => {
        const pooled = poolRuns(definition, list);
        if (pooled.kind === 'pooled') expect(pooled.result).toBe(resultOf(definition, list[0]!));
        else expect(new Set(pooled.results).size).toBeGreaterThan(1);
      }),
    );
  });

  it('of two rates, or none at all, are an error', () => {
    expect(() => poolRuns(definition, [])).toThrow(RangeError);
    expect(() => poolRuns(definition, [run(1, 40), run(1, 40, 2)])).toThrow(RangeError);
  });
});
