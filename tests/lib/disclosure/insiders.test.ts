import { describe, expect, it } from 'vitest';
import { senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { auditInsiders } from '@/lib/disclosure/audit/insiders';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { ladder } from '@/lib/disclosure/ladder';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { protect } from '@/lib/disclosure/protect';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { createCellFinder } from '@/lib/release/cell-finder';
import { holdingsOf } from '@/lib/release/holdings';
import { ladderCells } from '@/lib/release/ladder-cells';
import { Series, sample } from '../release/support/series';
import { gateInput, inventFacts, inventTree } from './support/invented';

// Invented regions and results throughout.
const TREE = inventTree({ states: 1, districts: 1, counties: 4 });
const YEARS = { first: 2015, last: 2017 };

/** Populations of one county, each result of the farm that is named. */
function county(fips: string, senders: Record<string, Fact['result'][]>): Fact[] {
  return Object.entries(senders).flatMap(([operation, results]) =>
    results.map((result, i) =>
      sample(`${fips} ${operation} ${i}`, { county: fips, season: 2016, operation, result }),
    ),
  );
}

const many = (fips: string) =>
  county(
    fips,
    Object.fromEntries(
      ['a', 'b', 'c', 'd', 'e', 'f'].map((x, i) => [`${fips}${x}`, [i < 3 ? 'resistant' : 'susceptible']]),
    ),
  );

/** Region, state, district and four counties of one window; the first two counties are withheld, all else is shown. */
async function asked(facts: Fact[]) {
  const cells = ladderCells(
    facts,
    [{ placeKind: 'region' }, { placeKind: 'state' }, { placeKind: 'district' }, { placeKind: 'county' }].map(
      ({ placeKind }) => ({
        placeKind: placeKind as 'county',
        ...{ periods: [YEARS], assays: ['whole plant' as const], joined: false, byDesign: false },
      }),
    ),
    TREE,
    [],
  );
  const { dominanceShare: _, ...policy } = DEFAULT_POLICY;
  const cube = releasedCubeFromStore({
    ...{ policy, firstSeason: 2015, closedSeasons: [2015, 2016, 2017], openSeason: null, windows: [YEARS] },
    ...{ seasonTables: [], areas: [], statuses: [] },
    cells: cells.map(({ tested, resistant, someSurvivors, ...cell }): ReleasedCell => {
      const isShown = !['10000', '10001'].includes(cell.place);
      return {
        ...{ placeKind: cell.placeKind, place: cell.place, period: cell.period, species: cell.species },
        ...{
          group: cell.group,
          assay: cell.assay,
          design: cell.design,
          receipt: null,
          actives: [],
          unfinished: false,
        },
        status: isShown ? 'published' : 'withheld',
        counts: isShown ? { tested, resistant, someSurvivors } : null,
      };
    }),
  });
  const finder = (fact: Fact) =>
    cells
      .filter((cell) => ['region', 'S0', 'S0-0', fact.county].includes(cell.place))
      .map((cell) => ({ cell, text: cellKeyText(cell), fact }));
  const release = { number: null, cube, places: TREE, truth: cells };
  return auditInsiders([release], [holdingsOf(facts, cube.cells, finder)], DEFAULT_POLICY);
}

/** By counting: every pair of tables for the two withheld counties that agrees with what is shown and what one sender has. */
function countedOut(facts: Fact[], sender: string, fips: string): Set<number> {
  const inside = facts.filter((fact) => ['10000', '10001'].includes(fact.county));
  const resistant = inside.filter(({ result }) => result === 'resistant').length;
  const susceptible = inside.length - resistant;
  const own = (at: string, result: string) =>
    inside.filter((fact) => fact.county === at && fact.operation === sender && fact.result === result).length;
  const other = fips === '10000' ? '10001' : '10000';
  const possible = new Set<number>();
  for (let r = own(fips, 'resistant'); r <= resistant - own(other, 'resistant'); r++) {
    for (let s = own(fips, 'susceptible'); s <= susceptible - own(other, 'susceptible'); s++) {
      if (r + s >= 1 && resistant - r + susceptible - s >= 1) possible.add(r);
    }
  }
  return possible;
}

describe('a sender who knows its own results', () => {
  const shown = [...many('10002'), ...many('10003')];

  it('is found to know that its neighbour has none resistant, when the only one is its own', async () => {
    const facts = [
      ...shown,
      ...county('10000', { mine: ['resistant', 'susceptible', 'susceptible'] }),
      ...county('10001', { other: ['susceptible', 'susceptible', 'susceptible'] }),
    ];
    const { breaches } = await asked(facts);
    expect(breaches.map(({ cell, quantity }) => [cell.split('|')[1], quantity])).toEqual([
      ['10001', 'resistant'],
    ]);
    expect(countedOut(facts, 'mine', '10001')).toEqual(new Set([0]));
  });

  it('is found to know nothing when another resistant one may lie in either', async () => {
    const facts = [
      ...shown,
      ...county('10000', { mine: ['resistant', 'susceptible', 'susceptible'] }),
      ...county('10001', { other: ['resistant', 'susceptible', 'susceptible'] }),
    ];
    expect((await asked(facts)).breaches).toEqual([]);
    expect(countedOut(facts, 'mine', '10001').size).toBeGreaterThan(1);
  });

  it('is not to blame for what a published total says beside its own', async () => {
    const none = shown.map((fact) => ({ ...fact, result: 'susceptible' as const }));
    const facts = [
      ...none,
      ...county('10000', { mine: ['resistant', 'susceptible', 'susceptible'] }),
      ...county('10001', { other: ['susceptible', 'susceptible', 'susceptible'] }),
    ];
    expect((await asked(facts)).breaches).toEqual([]);
  });

  it('is judged as counting out every table judges it, whatever the two counties hold', async () => {
    const words = ['resistant', 'susceptible'] as const;
    for (let code = 0; code < 256; code++) {
      const bits = Array.from({ length: 8 }, (_, i) => (code >> i) & 1);
      const facts = [
        ...shown,
        ...county('10000', {
          mine: [words[bits[0]!]!, words[bits[1]!]!],
          third: bits[6] ? [words[bits[2]!]!] : [],
        }),
        ...county('10001', {
          other: [words[bits[3]!]!, words[bits[4]!]!],
          fourth: bits[7] ? [words[bits[5]!]!] : [],
        }),
      ];
      const { breaches } = await asked(facts);
      const told = new Set(
        breaches.map(({ cell, own }) => `${cell.split('|')[1]} ${[...own.values()].at(-1)}`),
      );
      const inside = facts.filter(({ county: at }) => ['10000', '10001'].includes(at));
      const total = inside.filter(({ result }) => result === 'resistant').length;
      const openToAll = new Set(
        ['10000', '10001'].filter((fips) => countedOut(facts, 'nobody', fips).size > 1),
      );
      for (const fips of openToAll) {
        const senders = new Set(inside.map(senderOf));
        const knowing = [...senders].filter((sender) => {
          const others = inside.filter((fact) => fact.county === fips && senderOf(fact) !== sender);
          return others.length > 0 && countedOut(facts, sender, fips).size === 1;
        });
        const found = breaches.some(
          ({ cell, quantity }) => cell.includes(`|${fips}|`) && quantity === 'resistant',
        );
        expect([code, total, fips, found]).toEqual([code, total, fips, knowing.length > 0]);
      }
      expect(told.size).toBeLessThanOrEqual(8);
    }
  });
});

describe('a release', () => {
  const tree = inventTree({ states: 2, districts: 2, counties: 4 });
  const plans = [1, 2, 3, 4, 5, 6].map((seed) => ({
    seed,
    firstSeason: 2015,
    seasons: 6,
    mean: 4,
    share: 0.15,
  }));

  it('tells no sender the result of others from withheld cells (P4), though the tables alone would', async () => {
    let careless = 0;
    for (const plan of plans) {
      const facts = inventFacts(tree, plan).filter(({ publicShare }) => publicShare);
      const input = gateInput(facts, tree, plan);
      const without = await protect(input);
      const { policy, firstSeason, closedSeasons, openSeason, areas } = input;
      const finder = createCellFinder({ policy, firstSeason, closedSeasons, openSeason }, tree, areas);
      const ask = (cube: typeof without) =>
        auditInsiders(
          [{ number: null, cube, places: tree, truth: input.cells }],
          [holdingsOf(facts, cube.cells, finder)],
          DEFAULT_POLICY,
        );
      careless += (await ask(without)).breaches.length;
      const { cube, audit } = await new Series(tree, 2015).release({ facts, closed: 2020 });
      expect(audit.breaches).toEqual([]);
      expect((await ask(cube)).breaches).toEqual([]);
      const report = await auditRelease({
        cube,
        places: tree,
        truth: ladderCells(facts, ladder(input), tree, areas),
        policy,
      });
      expect(report.breaches).toEqual([]);
    }
    expect(careless).toBeGreaterThan(0);
  });
});
