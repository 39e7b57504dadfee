import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aggregate, type Table } from '@/lib/cube/aggregate';
import type { Cell, Fact } from '@/lib/cube/types';

// All facts in this file are invented.
const fact: fc.Arbitrary<Fact> = fc.record({
  population: fc.uuid(),
  county: fc.constantFrom('31001', '31003', '20001', '20003'),
  season: fc.integer({ min: 2019, max: 2024 }),
  species: fc.constantFrom('KCHSC', 'AMAPA'),
  group: fc.constantFrom(2, 9),
  assay: fc.constantFrom('whole plant' as const, 'molecular' as const),
  design: fc.constantFrom('submitted' as const, 'random' as const),
  crop: fc.constantFrom('wheat', 'corn', null),
  funder: fc.constant(null),
  operation: fc.option(fc.constantFrom('OP-1', 'OP-2', 'OP-3')),
  result: fc.constantFrom(
    'resistant' as const,
    'some survivors' as const,
    'susceptible' as const,
    'inconclusive' as const,
    'not testable' as const,
    'void run' as const,
  ),
  actives: fc.constantFrom(['glyphosate'], ['dicamba', 'fluroxypyr']),
  publicShare: fc.boolean(),
});
const facts = fc.array(fact, { maxLength: 60 });

const counties: Table = {
  placeKind: 'county',
  placeOf: (county) => county,
  periodOf: (season) => ({ first: season, last: season }),
  byDesign: false,
};
const states: Table = { ...counties, placeKind: 'state', placeOf: (county) => county.slice(0, 2) };
const windows: Table = {
  ...counties,
  periodOf: (season) => (season < 2022 ? { first: 2019, last: 2021 } : { first: 2022, last: 2024 }),
};

const MEASURES = [
  'received',
  'testable',
  'tested',
  'resistant',
  'someSurvivors',
  'susceptible',
  'inconclusive',
] as const;
const total = (cells: Cell[], measure: (typeof MEASURES)[number]) =>
  cells.reduce((sum, cell) => sum + cell[measure], 0);

describe('aggregating facts into cells', () => {
  it('keeps received ≥ testable ≥ tested = resistant + some survivors + susceptible', () => {
    fc.assert(
      fc.property(facts, (all) => {
        for (const cell of aggregate(all, counties)) {
          expect(cell.received).toBeGreaterThanOrEqual(cell.testable);
          expect(cell.testable).toBeGreaterThanOrEqual(cell.tested + cell.inconclusive);
          expect(cell.tested).toBe(cell.resistant + cell.someSurvivors + cell.susceptible);
          expect(cell.operations).toBeLessThanOrEqual(cell.tested);
          expect(cell.largestOperation).toBeGreaterThanOrEqual(
            cell.operations > 0 ? cell.tested / cell.operations : 0,
          );
        }
      }),
    );
  });

  it('gives every margin the sum of its parts, whatever the table', () => {
    fc.assert(
      fc.property(facts, (all) => {
        for (const measure of MEASURES) {
          const whole = total(aggregate(all, counties), measure);
          for (const table of [states, windows, { ...counties, byDesign: true }]) {
            expect(total(aggregate(all, table), measure)).toBe(whole);
          }
        }
      }),
    );
  });

  it('splits by crop into cells that add up to those of all crops', () => {
    fc.assert(
      fc.property(facts, (all) => {
        const named = all.filter(({ crop }) => crop !== null);
        for (const measure of MEASURES) {
          const parts = ['wheat', 'corn'].map((crop) =>
            total(aggregate(all, { ...counties, crop }), measure),
          );
          expect(parts[0]! + parts[1]!).toBe(total(aggregate(named, counties), measure));
        }
        expect(aggregate(all, { ...counties, crop: 'rice' })).toEqual([]);
      }),
    );
  });

  it('does not depend on the order of the facts', () => {
    fc.assert(
      fc.property(facts, (all) => {
        expect(aggregate([...all].reverse(), counties)).toEqual(aggregate(all, counties));
      }),
    );
  });

  it('counts distinct operations in a margin, not the sum of its parts', () => {
    const one: Fact = fc.sample(fact, { numRuns: 1, seed: 1 })[0]!;
    const sent = (county: string, operation: string | null): Fact => ({
      ...one,
      county,
      operation,
      result: 'resistant',
    });
    const [state] = aggregate([sent('31001', 'OP-1'), sent('31003', 'OP-1'), sent('31003', 'OP-2')], states);
    expect(state).toMatchObject({ tested: 3, operations: 2, largestOperation: 2 });
    const [unknown] = aggregate([sent('31001', null), sent('31001', null), sent('31003', null)], states);
    expect(unknown).toMatchObject({ tested: 3, operations: 2, largestOperation: 2 });
  });

  it('leaves out what has no place or period in the table', () => {
    fc.assert(
      fc.property(facts, (all) => {
        expect(aggregate(all, { ...counties, placeOf: () => null })).toEqual([]);
        expect(aggregate(all, { ...counties, periodOf: () => null })).toEqual([]);
      }),
      { numRuns: 10 },
    );
  });
});
