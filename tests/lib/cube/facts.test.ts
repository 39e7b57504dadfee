import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aggregate } from '@/lib/cube/aggregate';
import { factsOf, type ScreeningTest } from '@/lib/cube/facts';

// Invented.
const test: ScreeningTest = {
  population: 'p1',
  county: '31109',
  season: 2024,
  species: 'KCHSC',
  group: 4,
  assay: 'whole plant',
  design: 'submitted',
  crop: 'wheat',
  funder: null,
  operation: 'OP-1',
  publicShare: true,
  actives: ['dicamba'],
  result: 'susceptible',
};

describe('one fact for each population, group and assay', () => {
  it('is resistant when any tested active of the group is, and carries all tested actives', () => {
    const facts = factsOf([test, { ...test, actives: ['fluroxypyr'], result: 'resistant' }]);
    expect(facts).toMatchObject([{ result: 'resistant', actives: ['dicamba', 'fluroxypyr'] }]);
  });

  it('takes a result before a void run, and a void run before seed that could not be tested', () => {
    expect(factsOf([{ ...test, result: 'void run' }, test])).toMatchObject([{ result: 'susceptible' }]);
    expect(
      factsOf([
        { ...test, result: 'not testable' },
        { ...test, result: 'void run' },
      ]),
    ).toMatchObject([{ result: 'void run', actives: [] }]);
  });

  it('keeps assays and groups apart', () => {
    expect(factsOf([test, { ...test, assay: 'molecular' }, { ...test, group: 9 }])).toHaveLength(3);
  });

  it('counts a population once whatever the number and order of its tests', () => {
    const results = fc.array(
      fc.constantFrom(
        'resistant' as const,
        'susceptible' as const,
        'inconclusive' as const,
        'void run' as const,
      ),
      {
        minLength: 1,
      },
    );
    fc.assert(
      fc.property(results, (all) => {
        const tests = all.map((result) => ({ ...test, result }));
        const [cell, ...others] = aggregate(factsOf(tests), {
          placeKind: 'county',
          placeOf: (county) => county,
          periodOf: (season) => ({ first: season, last: season }),
          byDesign: false,
        });
        expect(others).toEqual([]);
        expect(cell?.received).toBe(1);
        expect(factsOf([...tests].reverse())[0]?.result).toBe(factsOf(tests)[0]?.result);
      }),
    );
  });
});
