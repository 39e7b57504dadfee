import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deriveResult } from '@/lib/intake/confirmation/derive-result';
import { resultOf } from '@/lib/intake/confirmation/result-of';
import { clopperPearson } from '@/lib/stats/clopper-pearson';
import { StatsError } from '@/lib/stats/errors';
import { CASE_DEFINITIONS } from '@/lib/vocabulary/case-definition';
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

  it('has no answer from no plants, and refuses counts that cannot be', () => {
    expect(result(1, 0, 0)).toBe('inconclusive');
    expect(result(null, 0, 0, 'molecular')).toBe('inconclusive');
    const impossible = [
      [5, 3],
      [1, 0],
      [-1, 10],
      [0, Number.NaN],
      [Number.NaN, 10],
    ] as const;
    for (const [alive, treated] of impossible) {
      expect(() => result(1, alive, treated)).toThrow(expect.objectContaining({ code: 'bad count' }));
      expect(() => result(null, alive, treated, 'molecular')).toThrow(StatsError);
    }
  });

  it('of a molecular assay asks for one plant with a known mutation', () => {
    expect(result(null, 1, 10, 'molecular')).toBe('resistant');
    expect(result(1, 0, 3, 'molecular')).toBe('susceptible');
  });
});

const byVersion = (version: string) => CASE_DEFINITIONS.find((one) => one.version === version)!;

describe('definitions in print', () => {
  const at = (version: string, alive: number, treated: number, rateMultiple = 1) =>
    resultOf(byVersion(version), { assay: 'whole plant', rateMultiple, treated, alive });

  // Singh et al. 2024, Weed Science: 40 % at the label rate; 10–39 % less sensitive; below 10 % susceptible.
  it.each([
    [16, 'resistant'],
    [15, 'some survivors'],
    [4, 'some survivors'],
    [3, 'susceptible'],
    [0, 'susceptible'],
  ] as const)('by 40 %% survivors, %s of 40 alive: %s', (alive, expected) => {
    expect(at('survivors 40 %', alive, 40)).toBe(expected);
  });

  // Faleco et al. 2022, Weed Technology 36(5): 50 % survival; soil-applied a density reduction below 90 %.
  it('by 50 % survivors, soil-applied pots are judged by the plants that emerge against untreated ones', () => {
    expect(at('survivors 50 %', 20, 40)).toBe('resistant');
    expect(at('survivors 50 %', 19, 40)).toBe('some survivors');
    const soil = (treated: number, untreated: number, version = 'survivors 50 %') =>
      resultOf(byVersion(version), {
        ...{ assay: 'soil-applied', rateMultiple: 1, treated: 40, alive: 0 },
        emerged: { treated, untreated },
      });
    expect(soil(11, 100)).toBe('resistant');
    expect(soil(10, 100)).toBe('some survivors');
    expect(soil(0, 100)).toBe('susceptible');
    expect(soil(0, 0)).toBe('inconclusive');
    expect(soil(20, 100, '2026-1')).toBe('resistant');
    expect(soil(19, 100, '2026-1')).toBe('some survivors');
    expect(() => soil(-1, 100)).toThrow(StatsError);
    expect(() => soil(1, Number.NaN)).toThrow(StatsError);
  });

  it('with emergence, the plants that emerged before a spray on leaves do not stand for survivors', () => {
    const spray = { rateMultiple: 1, treated: 20, alive: 0, emerged: { treated: 18, untreated: 20 } };
    expect(resultOf(definition, { ...spray, assay: 'whole plant' })).toBe('susceptible');
    expect(resultOf(definition, { ...spray, assay: 'soil-applied' })).toBe('resistant');
    // Nothing emerged in the treated pots, so no plant could be counted there: the herbicide worked.
    const bare = {
      ...spray,
      assay: 'soil-applied' as const,
      treated: 0,
      emerged: { treated: 0, untreated: 20 },
    };
    expect(resultOf(definition, bare)).toBe('susceptible');
  });

  // Sharpe et al. 2022, abstract: low 1–20 %, moderate 21–60 %, high above 60 %; their total of resistant sites holds all three.
  it('by 1 % survivors, the lowest class in print is resistant, and what lies below it is some survivors', () => {
    expect(at('survivors 1 %', 1, 100)).toBe('resistant');
    expect(at('survivors 1 %', 1, 101)).toBe('some survivors');
    expect(at('survivors 1 %', 0, 12)).toBe('susceptible');
  });

  it('call no tray resistant that one with a lower threshold does not', () => {
    const plain = CASE_DEFINITIONS.filter(({ exactLimits }) => exactLimits === null);
    const ordered = [...plain].sort((a, b) => a.resistantPercent - b.resistantPercent);
    const trays = fc.integer({ min: 1, max: 300 }).chain((n) => fc.tuple(fc.nat(n), fc.constant(n)));
    fc.assert(
      fc.property(trays, ([alive, treated]) => {
        const calls = ordered.map(({ version }) => at(version, alive, treated) === 'resistant');
        expect(calls).toEqual([...calls].sort((a, b) => Number(b) - Number(a)));
      }),
    );
  });

  // 95 % limits by Clopper and Pearson: 8 of 40 is 9.1–35.6 %, 20 of 40 is 33.8–66.2 %, 1 of 40 is 0.06–13.2 %.
  it('with exact limits, a lot is inconclusive while its interval holds the threshold', () => {
    expect(at('2026-1 exact', 8, 40)).toBe('inconclusive');
    expect(at('2026-1 exact', 20, 40)).toBe('resistant');
    expect(at('2026-1 exact', 1, 40)).toBe('some survivors');
    expect(at('2026-1 exact', 0, 40)).toBe('susceptible');
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 200 }).chain((n) => fc.tuple(fc.nat(n), fc.constant(n))),
        ([alive, treated]) => {
          const { low, high } = clopperPearson(alive, treated);
          const holds = alive > 0 && low < 0.2 && 0.2 <= high;
          expect(at('2026-1 exact', alive, treated) === 'inconclusive').toBe(holds);
        },
      ),
    );
  });
});

describe('several runs of one test', () => {
  const test = { assay: 'whole plant' as const, rateMultiple: 1 };
  const run = (alive: number | null, treated: number | null, name = `${alive}/${treated}`, over = {}) => ({
    ...{ run: name, valid: true, treated, alive, stated: null },
    ...over,
  });
  const derive = (...trays: ReturnType<typeof run>[]) => deriveResult(definition, test, trays);

  it('are judged by all plants together', () => {
    expect(derive(run(3, 40), run(5, 40))).toEqual({
      kind: 'result',
      treated: 80,
      alive: 8,
      result: 'some survivors',
    });
  });

  it('are a question where they alone would differ, not where replicates of a run do', () => {
    expect(derive(run(22, 40, 'A'), run(3, 40, 'B'))).toMatchObject({
      kind: 'runs differ',
      runs: [
        { run: 'A', result: 'resistant' },
        { run: 'B', result: 'some survivors' },
      ],
      pooled: { result: 'resistant', treated: 80, alive: 25 },
    });
    expect(derive(run(10, 10, 'A'), run(0, 10, 'A'), run(0, 60, 'A'))).toMatchObject({
      result: 'some survivors',
      treated: 80,
    });
  });

  it('do not count where they are void', () => {
    expect(derive(run(22, 40, 'A', { valid: false }), run(3, 40, 'B'))).toMatchObject({
      result: 'some survivors',
      treated: 40,
    });
    expect(derive(run(22, 40, 'A', { valid: false }))).toEqual({ kind: 'void' });
    expect(deriveResult(definition, test, [])).toEqual({ kind: 'void' });
  });

  it('of replicates that hold too few plants together is inconclusive', () => {
    const tray = (alive: number, replicate: string) => run(alive, 4, 'A', { replicate });
    expect(derive(tray(4, '1'), tray(4, '2'))).toMatchObject({ result: 'inconclusive', treated: 8 });
    expect(derive(tray(4, '1'), tray(4, '2'), tray(4, '3'))).toMatchObject({
      result: 'resistant',
      alive: 12,
    });
  });

  it('may be stated without plants; plants go before statements', () => {
    expect(derive(run(null, null, 'A', { stated: 'resistant' }))).toEqual({
      ...{ kind: 'result', result: 'resistant', treated: null, alive: null },
    });
    expect(derive(run(0, 40, 'A', { stated: 'resistant' }))).toMatchObject({ result: 'susceptible' });
  });

  it('that agree alone agree pooled', () => {
    const runs = fc.array(
      fc.integer({ min: 10, max: 60 }).chain((n) => fc.nat(n).map((alive) => [alive, n] as const)),
      { minLength: 1, maxLength: 4 },
    );
    fc.assert(
      fc.property(runs, (list) => {
        const derived = derive(...list.map(([alive, n], i) => run(alive, n, `${i}`)));
        if (derived.kind === 'result') expect(derived.result).toBe(result(1, list[0]![0], list[0]![1]));
        else expect(derived.kind).toBe('runs differ');
      }),
    );
  });
});
