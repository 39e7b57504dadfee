import { describe, expect, it } from 'vitest';
import { multipleFacts, SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { Fact } from '@/lib/cube/types';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { multipleCells } from '@/lib/disclosure/further';
import { ladder } from '@/lib/disclosure/ladder';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { protectPairs, protectSeveral } from '@/lib/disclosure/protect';
import { createCellFinder } from '@/lib/release/cell-finder';
import { ladderCells } from '@/lib/release/ladder-cells';
import { createShownResults } from '@/lib/release/shown-results';
import { againstMoreGroups, gateInput, inventFacts, inventTree } from './support/invented';

// Invented regions and results throughout.
const TREE = inventTree({ states: 2, districts: 2, counties: 3 });
const PLAN = { firstSeason: 2015, seasons: 3 };

/** A release with what is said of several groups counted over the results that `counting` chooses. */
async function released(seed: number, mean: number, counting: 'shown results' | 'all results') {
  const facts = inventFacts(TREE, { ...PLAN, seed, mean, share: 0.4 }).filter((fact) => fact.publicShare);
  const all = againstMoreGroups(facts, [2, 4], seed);
  const input = gateInput(all, TREE, PLAN);
  const own = await protectPairs(input);
  const { cube } = own;
  const question = { ...input, policy: DEFAULT_POLICY };
  const cellsOf = createCellFinder(question, TREE, input.areas);
  const isCounted = counting === 'all results' ? () => true : createShownResults([{ cube, cellsOf }]);
  const several = ladderCells(multipleFacts(all, isCounted), ladder(question), TREE, input.areas);
  const { cube: made, figures } = await protectSeveral({ ...input, cells: several }, own);
  const truth = [...input.cells, ...several];
  const audit = await auditRelease({ cube: made, places: TREE, truth, policy: DEFAULT_POLICY });
  return { made, figures, audit, all, isCounted };
}

const tooTelling = ({ breaches }: { breaches: { pair?: { group: number } }[] }) =>
  breaches.filter(({ pair }) => pair?.group === SEVERAL_GROUPS);

describe('resistance to several groups', () => {
  it.each([1, 2, 3, 4, 5, 6])(
    'counts results in shown cells only, and tells nothing (seed %i)',
    async (seed) => {
      const { audit, figures } = await released(seed, 3, 'shown results');
      expect(tooTelling(audit)).toEqual([]);
      const withheld = figures.reduce((sum, { primary, complementary }) => sum + primary + complementary, 0);
      expect(withheld).toBe(audit.withheldCells);
    },
  );

  it('would tell on withheld cells if it counted all results, which the audit finds', async () => {
    let found = 0;
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const { audit } = await released(seed, 3, 'all results');
      found += tooTelling(audit).length;
    }
    expect(found).toBeGreaterThan(0);
  });

  it('counts every population of a shown cell that was screened against two groups, once', async () => {
    const { made, all, isCounted } = await released(1, 12, 'shown results');
    const shown = multipleCells(made).filter(({ counts }) => counts !== null);
    expect(shown.length).toBeGreaterThan(0);
    for (const { place, placeKind, period, species, counts } of shown) {
      const populations = new Map<string, Fact[]>();
      for (const fact of all) {
        const isInside = placeKind === 'region' || `S${Number(fact.county.slice(0, 2)) - 10}` === place;
        const isTold = ['resistant', 'some survivors', 'susceptible'].includes(fact.result);
        const isSeason = period.first <= fact.season && fact.season <= period.last;
        if (!isInside || !isTold || !isSeason || fact.assay !== 'whole plant' || !isCounted(fact)) continue;
        populations.set(fact.population, [...(populations.get(fact.population) ?? []), fact]);
      }
      const groups = [...populations.values()].filter(({ length }) => length > 1);
      const number = groups.map((own) => own.filter(({ result }) => result === 'resistant').length);
      expect({ species, ...counts }).toEqual({
        species: 'KCHSC',
        tested: groups.length,
        none: number.filter((n) => n === 0).length,
        one: number.filter((n) => n === 1).length,
        several: number.filter((n) => n > 1).length,
      });
    }
  });
});
