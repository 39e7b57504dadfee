import { describe, expect, it, vi } from 'vitest';
import { senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { againstMoreGroups, inventFacts, inventTree, randomFrom } from '../disclosure/support/invented';
import { Series, sample, shownText } from './support/series';

// Invented regions, results and revisions throughout. More of them: `npm run bench -- gate`.
vi.setConfig({ testTimeout: 240_000 });
const TREE = inventTree({ states: 2, districts: 2, counties: 4 });
const FIRST = 2015;

/** Late samples, corrections, withdrawn and given consents, a moved sample, and the results of the next season. */
function revised(facts: readonly Fact[], random: () => number, next: readonly Fact[], rate: number): Fact[] {
  const counties = TREE.counties.map(({ fips }) => fips);
  const changed = facts.flatMap((fact): Fact[] => {
    const roll = random();
    if (roll < rate * 0.2) return [{ ...fact, publicShare: !fact.publicShare }];
    if (roll < rate * 0.4)
      return [{ ...fact, result: fact.result === 'resistant' ? 'susceptible' : 'resistant' }];
    if (roll < rate * 0.45) return [{ ...fact, county: counties[Math.floor(random() * counties.length)]! }];
    if (roll > 1 - rate)
      return [
        fact,
        { ...fact, population: `${fact.population}+${Math.floor(random() * 1e9)}`, operation: null },
      ];
    return [fact];
  });
  return [...changed, ...next];
}

describe.each([0.7, 2, 6, 20])(
  'five releases with late changes, at a mean of %f populations a county and season',
  (mean) => {
    it.each([1, 2, 3, 4, 5])(
      'are clean together, and differ by nothing or by batches (seed %i)',
      async (seed) => {
        const random = randomFrom(seed * 1000 + mean);
        const plan = { seed, firstSeason: FIRST, seasons: 7, mean, share: 0.3 };
        const all = inventFacts(TREE, plan);
        const upTo = (season: number) => all.filter((fact) => fact.season <= season);
        const series = new Series(TREE, FIRST);
        let facts = upTo(FIRST + 4);
        await series.release({ facts, closed: FIRST + 3 });
        for (const [closed, open, rate] of [
          [FIRST + 3, FIRST + 4, 0.02],
          [FIRST + 4, FIRST + 5, 0.15],
          [FIRST + 5, FIRST + 6, 0.02],
          [FIRST + 6, FIRST + 6, 0.3],
        ] as const) {
          const known = Math.max(...facts.map(({ season }) => season));
          facts = revised(
            facts,
            random,
            open > known ? all.filter(({ season }) => season === open) : [],
            rate,
          );
          const made = await series.release({ facts, closed });
          expect(made.audit.breaches).toEqual([]);
        }
        expect(series.past).toHaveLength(5);
        for (const [r, later] of series.past.entries()) {
          for (const earlier of series.past.slice(0, r)) expect(thinDifferences(earlier, later)).toEqual([]);
        }
      },
    );
  },
);

describe.each([2, 8])(
  'four releases of populations screened against three groups, at a mean of %i',
  (mean) => {
    it.each([1, 2, 3])(
      'are clean together, by crop, by active and over several groups too (seed %i)',
      async (seed) => {
        const random = randomFrom(seed * 77 + mean);
        const plan = { seed, firstSeason: FIRST, seasons: 6, mean, share: 0.4 };
        const all = againstMoreGroups(inventFacts(TREE, plan), [2, 4], seed);
        const series = new Series(TREE, FIRST);
        let facts: Fact[] = all.filter(({ season }) => season < FIRST + 4);
        await series.release({ facts, closed: FIRST + 2 });
        for (const [closed, rate] of [
          [FIRST + 3, 0.1],
          [FIRST + 4, 0.02],
          [FIRST + 5, 0.2],
        ] as const) {
          const known = Math.max(...facts.map(({ season }) => season));
          const next = all.filter(({ season }) => season > known && season <= closed + 1);
          facts = revised(facts, random, next, rate).map((fact) =>
            random() < rate / 10 ? { ...fact, crop: 'sunflower' } : fact,
          );
          const made = await series.release({ facts, closed });
          expect(made.audit.breaches).toEqual([]);
          expect(made.cube.furtherTables).toEqual(['crop', 'active', 'several groups']);
        }
        for (const [r, later] of series.past.entries()) {
          for (const earlier of series.past.slice(0, r)) expect(thinDifferences(earlier, later)).toEqual([]);
        }
      },
    );
  },
);

describe('six releases in a row', () => {
  it('stay clean when a sample comes alone, then in a batch that is withdrawn, a county changes its code, and a season closes', async () => {
    const plan = { seed: 9, firstSeason: FIRST, seasons: 7, mean: 20, share: 0.3 };
    const all = inventFacts(TREE, plan);
    const first = all.filter(({ season }) => season < FIRST + 6);
    const alone = sample('alone', { season: FIRST + 1, result: 'resistant' });
    const batch = Array.from({ length: 8 }, (_, i) =>
      sample(`batch ${i}`, { season: FIRST + 1, result: i % 2 ? 'resistant' : 'susceptible' }),
    );
    const left = batch.map((fact) => ({ ...fact, publicShare: false }));
    const code = (fips: string) => (fips === '10003' ? '10093' : fips);
    const recoded = {
      counties: TREE.counties.map((county) => ({ ...county, fips: code(county.fips) })),
      districts: TREE.districts.map((one) => ({ ...one, counties: one.counties.map(code) })),
    };
    const coded = (facts: readonly Fact[]) => facts.map((fact) => ({ ...fact, county: code(fact.county) }));
    const series = new Series(TREE, FIRST);
    await series.release({ facts: first, closed: FIRST + 5 });
    await series.release({ facts: [...first, alone], closed: FIRST + 5 });
    expect(shownText(series.made[1]!)).toEqual(shownText(series.made[0]!));
    await series.release({ facts: [...first, alone, ...batch], closed: FIRST + 5 });
    const numbers = series.made.map(({ revision }) => revision.facts.length);
    expect(numbers[2]! - numbers[1]!).toBe(9);
    await series.release({ facts: [...first, alone, ...left], closed: FIRST + 5 });
    // Without the batch the one sample would be all that tells this release from the first.
    expect(shownText(series.made[3]!)).toEqual(shownText(series.made[2]!));
    await series.release({ facts: coded([...first, alone, ...left]), closed: FIRST + 5, tree: recoded });
    await series.release({ facts: coded([...all, alone, ...left]), closed: FIRST + 6, tree: recoded });
    expect(series.made.map(({ audit }) => audit.breaches)).toEqual([[], [], [], [], [], []]);
    const last = series.made[5]!.revision;
    expect(last.facts.filter(({ season }) => season === FIRST + 6).length).toBeGreaterThan(0);
    expect(last.facts.some(({ county }) => county === '10003')).toBe(false);
  });

  it('go on under the new code of a county that was recoded and is recorded so', async () => {
    const all = inventFacts(TREE, { seed: 4, firstSeason: FIRST, seasons: 7, mean: 8, share: 0.3 });
    const code = (fips: string) => (fips === '10003' ? '10093' : fips);
    const recoding = new Map([['10003', '10093']]);
    const tree = {
      counties: TREE.counties.map((county) => ({ ...county, fips: code(county.fips) })),
      districts: TREE.districts.map((one) => ({ ...one, counties: one.counties.map(code) })),
    };
    const upTo = (season: number) => all.filter((fact) => fact.season <= season);
    const [plain, coded] = [new Series(TREE, FIRST), new Series(TREE, FIRST)];
    for (const series of [plain, coded]) await series.release({ facts: upTo(FIRST + 4), closed: FIRST + 3 });
    const late = revised(upTo(FIRST + 6), randomFrom(8), [], 0.1);
    for (const [facts, closed] of [
      [upTo(FIRST + 5), FIRST + 4],
      [late, FIRST + 5],
      [late, FIRST + 6],
    ] as const) {
      await plain.release({ facts, closed });
      const made = await coded.release({ facts, closed, tree, recoding });
      expect(made.audit.breaches).toEqual([]);
    }
    // The same is shown as if the county had kept its code, and the same waits.
    const renamed = (text: string) => text.replaceAll('10003', '10093');
    for (const r of [1, 2, 3]) {
      expect(shownText(coded.made[r]!).sort()).toEqual(shownText(plain.made[r]!).map(renamed).sort());
      expect(coded.made[r]!.revision.waiting.length).toBe(plain.made[r]!.revision.waiting.length);
    }
    // Without the record nothing of that county may change: it would be another one.
    const other = await new Series(TREE, FIRST).release({ facts: upTo(FIRST + 4), closed: FIRST + 3 });
    expect(other.audit.clean).toBe(true);
  });

  it('take no county for another that is there as well', async () => {
    const facts = inventFacts(TREE, { seed: 4, firstSeason: FIRST, seasons: 4, mean: 8, share: 0.3 });
    const series = new Series(TREE, FIRST);
    await series.release({ facts, closed: FIRST + 3 });
    const recoding = new Map([['10003', '10002']]);
    await expect(series.release({ facts, closed: FIRST + 3, recoding })).rejects.toThrow('not renamed');
  });

  it('are the same, byte by byte, when they are made again (P9)', async () => {
    const make = async () => {
      const facts = inventFacts(TREE, { seed: 2, firstSeason: FIRST, seasons: 6, mean: 6, share: 0.3 });
      const series = new Series(TREE, FIRST);
      await series.release({ facts: facts.filter(({ season }) => season < FIRST + 5), closed: FIRST + 3 });
      await series.release({ facts: revised(facts, randomFrom(3), [], 0.1), closed: FIRST + 5 });
      return series.made.map(({ cube, audit, revision }) => JSON.stringify([cube, audit, revision.waiting]));
    };
    expect(await make()).toEqual(await make());
  });
});

type Past = Series['past'][number];

/** By another way than the line's own: cells that both show, whose populations differ by too few or too few senders. */
function thinDifferences(earlier: Past, later: Past): string[] {
  const now = new Map(later.cube.cells.map((cell) => [cellKeyText(cell), cell]));
  return earlier.cube.cells.flatMap((cell) => {
    const next = now.get(cellKeyText(cell));
    if (!cell.counts || !next?.counts || cell.placeKind === 'area') return [];
    const inside = (fact: Fact) => {
      const place = TREE.counties.find(({ fips }) => fips === fact.county)!;
      const own = {
        region: 'region',
        state: place.state,
        district: place.district,
        county: place.fips,
        area: '',
      };
      return (
        own[cell.placeKind] === cell.place &&
        cell.period.first <= fact.season &&
        fact.season <= cell.period.last &&
        fact.species === cell.species &&
        fact.group === cell.group &&
        fact.assay === cell.assay &&
        (cell.design === null || cell.design === fact.design) &&
        ['resistant', 'some survivors', 'susceptible'].includes(fact.result)
      );
    };
    const textOf = (fact: Fact) => `${fact.population} ${fact.result}`;
    const [a, b] = [earlier.facts.filter(inside), later.facts.filter(inside)];
    const [were, are] = [new Set(a.map(textOf)), new Set(b.map(textOf))];
    const moved = [...a.filter((f) => !are.has(textOf(f))), ...b.filter((f) => !were.has(textOf(f)))];
    const populations = new Set(moved.map(({ population }) => population)).size;
    const senders = new Set(moved.map(senderOf)).size;
    expect(b.length - a.length).toBe(next.counts.tested - cell.counts.tested);
    return moved.length > 0 && (populations < 5 || senders < 3) ? [cellKeyText(cell)] : [];
  });
}
