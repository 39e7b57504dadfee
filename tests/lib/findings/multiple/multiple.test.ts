import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Fact } from '@/lib/cube/types';
import { analyseMultiple } from '@/lib/findings/multiple/analyse-multiple';
import { multipleTasks } from '@/lib/findings/multiple/multiple-tasks';
import { factOf, region } from '../analysis/invented-facts';

/** Invented: 24 farms, each screened for groups 2 and 9, half also for 14; 2 and 9 nearly always together. */
const facts: Fact[] = region.counties.slice(0, 24).flatMap(({ fips }, i) =>
  [2022, 2023].flatMap((season) =>
    [2, 9, ...(i % 2 === 0 ? [14] : [])].map((group) => {
      const isHeavy = (i + season) % 3 === 0;
      const isResistant = group === 14 ? i % 4 === 0 : isHeavy !== (i === 5 && group === 2);
      return factOf(fips, {
        season,
        group,
        population: `${fips}-${season}`,
        result: isResistant ? 'resistant' : 'susceptible',
      });
    }),
  ),
);
const input = { facts, region, closedSeasons: [2022, 2023], speciesName: () => 'Invented weed' };
const [task] = multipleTasks(input);
const found = analyseMultiple(task!);

describe('multiple resistance of a species', () => {
  it('takes each population once, with the groups it was screened for', () => {
    expect(multipleTasks(input).map(({ design }) => design)).toEqual([null, 'submitted']);
    expect(task).toMatchObject({ groups: [2, 9, 14], seasons: [2022, 2023] });
    expect(task!.populations.tested).toHaveLength(48);
    expect(task!.populations.tested.filter((mask) => mask === 0b111)).toHaveLength(24);
  });

  it('of one sender in a county and season counts one: the one screened for most', () => {
    const more = facts
      .filter(({ county, group }) => county === facts[0]!.county && group === 2)
      .map((fact) => ({ ...fact, population: `${fact.population} again` }));
    expect(multipleTasks({ ...input, facts: [...more, ...facts] })[0]).toEqual(task);
  });

  it('tells which groups come together beyond chance, inside district and season', () => {
    expect(found.pairs.map(({ first, second, tested }) => [first, second, tested])).toEqual([
      [2, 9, 48],
      [2, 14, 24],
      [9, 14, 24],
    ]);
    const [together, ...others] = found.pairs;
    expect(together!.p).toBeLessThan(0.001);
    expect(together!.both + together!.firstOnly + together!.secondOnly + together!.neither).toBe(48);
    for (const { p } of others) expect(p).toBeGreaterThan(0.05);
    expect(found.sentences.together).toMatch(
      /^Invented weed, 2022–2023: resistances come together in the same population beyond chance: groups 2 and 9 \(odds ratio at least [\d.]+; p < 0.001\), among populations of the same district and season \(one pair of groups looked at\)/,
    );
  });

  it('keeps exactly and at least apart, of those screened for so many', () => {
    const of = (season: number, groups: number) =>
      found.bySeason.find((row) => row.season === season && row.groups === groups)!;
    // By hand: 12 populations of a season were screened for all three groups.
    expect(of(2022, 3).tested).toBe(12);
    expect(of(2022, 2).tested).toBe(24);
    expect(of(2022, 2).atLeast).toBe(of(2022, 2).exactly + of(2022, 3).exactly);
    expect(found.sentences.growth).toMatch(
      /of 24 populations screened for so many in 2023 were resistant to at least 2 groups, \d+ of 24 in 2022/,
    );
  });

  it('says so where nothing can be told', () => {
    const one = facts.filter(({ group }) => group === 2);
    const single = analyseMultiple(multipleTasks({ ...input, facts: one })[0]!);
    expect(single.sentences).toEqual({
      together: 'Invented weed, 2022–2023: no population was screened for two groups.',
      growth:
        'Invented weed, 2022–2023: no population was screened for two groups, so none can show multiple resistance.',
    });
    expect(multipleTasks({ ...input, closedSeasons: [] })).toEqual([]);
  });

  it('does not depend on the order of the facts', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(facts, { minLength: facts.length }), (shuffled) => {
        expect(multipleTasks({ ...input, facts: shuffled })).toEqual(multipleTasks(input));
      }),
      { numRuns: 10 },
    );
  });
});
