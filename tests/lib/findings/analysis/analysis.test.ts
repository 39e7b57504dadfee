import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyseMap } from '@/lib/findings/analysis/analyse-map';
import { mapTasks } from '@/lib/findings/analysis/map-tasks';
import type { AnalysisPart, LocalResult, MapTask } from '@/lib/findings/analysis/types';
import { ANALYSIS_VERSION } from '@/lib/findings/analysis/version';
import { analyseParts } from '@/lib/findings/threads/part-workers';
import { factOf, facts, periods, region, tasks } from './invented-facts';

const input = { facts, region, periods, seed: 1, speciesName: () => 'Invented weed' };

describe('the maps of a programme', () => {
  it('are one for each species, group and period, of all designs together and of each by itself', () => {
    const keys = tasks().map(
      ({ period, design, grain }) => `${period.first}–${period.last} ${design} ${grain}`,
    );
    expect(keys).toEqual([
      '2022–2022 null area',
      '2022–2022 random area',
      '2022–2022 submitted area',
      '2022–2023 null area',
      '2022–2023 random area',
      '2022–2023 submitted area',
    ]);
  });

  it('count each population once, by place and by season', () => {
    const both = tasks()[3]!;
    expect(both.observations).toHaveLength(36);
    for (const [row, { place, tested, resistant }] of both.observations.entries()) {
      const own = facts.filter(({ county }) => county === place);
      expect([tested, resistant]).toEqual([
        own.length,
        own.filter(({ result }) => result === 'resistant').length,
      ]);
      expect(both.bySeason.tested.slice(2 * row, 2 * row + 2)).toEqual([5, 5]);
      const sent = both.senders.get(place)!;
      expect(sent.reduce((sum, one) => sum + one.tested, 0)).toBe(tested);
    }
  });

  it('leave out what has no result, another assay, and a season outside', () => {
    const others = [
      factOf('r0c0', { assay: 'molecular' }),
      factOf('r0c0', { result: 'inconclusive' }),
      factOf('r0c0', { result: 'not testable' }),
      factOf('r0c0', { season: 2030 }),
    ];
    expect(mapTasks({ ...input, facts: [...facts, ...others] })).toEqual(tasks());
    expect(mapTasks({ ...input, facts: others })).toEqual([]);
  });

  it('do not depend on the order of the facts, nor their seeds on which other maps there are', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(facts, { minLength: facts.length }), (shuffled) => {
        const found = mapTasks({ ...input, facts: shuffled });
        expect(found.map(({ seed, observations, bySeason }) => ({ seed, observations, bySeason }))).toEqual(
          tasks().map(({ seed, observations, bySeason }) => ({ seed, observations, bySeason })),
        );
      }),
      { numRuns: 5 },
    );
    const alone = mapTasks({ ...input, periods: [periods[1]!] });
    expect(alone.map(({ seed }) => seed)).toEqual(
      tasks()
        .slice(3)
        .map(({ seed }) => seed),
    );
  });

  it('are by district where too few counties have a neighbour with results', () => {
    const few = facts.filter(({ county }) => county.startsWith('r0'));
    expect(mapTasks({ ...input, facts: few })[0]).toMatchObject({ grain: 'district' });
  });
});

describe('the analysis of a map', () => {
  const analysis = analyseMap(tasks()[3]!);

  it('tells the planted block, and that it is one sender', () => {
    expect(analysis.clustering).toMatchObject({ verdict: 'lie together', madeOf: { operations: 1 } });
    expect(analysis.clustering.sentence).toContain('this is one sender, not a cluster of farms');
    expect(analysis.clustering.sentence).toMatch(/^Invented weed, group 9, 2022–2023/);
    const { circles, cylinders, global } = analysis.tests!;
    for (const [strongest] of [circles.half, circles.quarter, cylinders!]) {
      expect(strongest!.p).toBe(0.001);
      expect(strongest!.places.filter((place) => /^r[123]c[123]$/.test(place)).length).toBeGreaterThan(4);
    }
    expect(circles.half[0]!.seasons).toEqual([2022, 2023]);
    const middle = analysis.tests!.places.indexOf('r2c2');
    expect(analysis.tests!.local.gStar.pattern[middle]).toBe('more around here');
    for (const { p } of [global.moran, global.geary, global.constantRisk]) expect(p).toBeLessThan(0.01);
  });

  it('has one value for each place, p in (0, 1] and adjusted p no smaller', () => {
    for (const task of tasks()) {
      const { tests } = analyseMap(task);
      const { moran, g, gStar, joinCounts, minimumP } = tests!.local;
      for (const local of [moran, g, gStar, joinCounts].filter((one): one is LocalResult => one !== null)) {
        expect(local.statistic).toHaveLength(tests!.places.length);
        local.pattern.forEach((pattern, i) => {
          expect(pattern === 'no sign').toBe(local.adjustedP[i]! > 0.05);
        });
        local.p.forEach((p, i) => {
          expect(p > 0 && p <= local.adjustedP[i]! * (1 + 1e-12) && local.adjustedP[i]! <= 1).toBe(true);
        });
      }
      expect(minimumP.adjustedP).toHaveLength(tests!.places.length);
      expect(tests!.rates.betaBinomial).toHaveLength(tests!.places.length);
      expect(JSON.stringify(tests)).not.toContain('null,null');
    }
  });

  it('is only a verdict where too little was tested, with its reason', () => {
    const few = mapTasks({ ...input, facts: facts.slice(0, 30) });
    const found = analyseMap(few[0]!);
    expect(found.tests).toBeNull();
    expect(found.clustering).toMatchObject({ verdict: 'too little tested' });
    expect(found.clustering.reason).not.toBe('');
  });

  it('gives the numbers that its version stands for: a change of either changes the other', () => {
    const digest = createHash('sha256').update(JSON.stringify(analysis)).digest('hex').slice(0, 16);
    expect({ version: ANALYSIS_VERSION, digest }).toMatchInlineSnapshot(`
      {
        "digest": "c42f2ca6d3ec3e29",
        "version": "3",
      }
    `);
  });
});

describe.each([1, 2, 3])('%i threads', (threads) => {
  it('give what one thread gives, each map once', async () => {
    const found = new Map<number, AnalysisPart>();
    let storing = 0;
    await analyseParts(tasks(), threads, async (analysis, task) => {
      storing += 1;
      expect(storing).toBe(1);
      await new Promise((resolve) => setTimeout(resolve, 2));
      storing -= 1;
      const { seed } = task as MapTask;
      expect(found.has(seed)).toBe(false);
      found.set(seed, analysis);
    });
    expect(tasks().map(({ seed }) => found.get(seed))).toEqual(tasks().map((task) => analyseMap(task)));
  });
});

it('an analysis whose storing fails ends with that error', async () => {
  const stored: number[] = [];
  const broken = analyseParts(tasks(), 2, async (_, task) => {
    if (stored.length === 2) throw new Error('the store is gone');
    stored.push((task as MapTask).seed);
  });
  await expect(broken).rejects.toThrow('the store is gone');
  expect(stored).toHaveLength(2);
});
