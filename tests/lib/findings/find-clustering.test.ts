import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findClustering } from '@/lib/findings/find-clustering';
import type { Observation } from '@/lib/findings/types';
import { Random } from '@/lib/stats/random';
import { observation, PAIR, squareKey, squareNeighbours } from './invented';

const SIZE = 8;
const setting = {
  neighbours: squareNeighbours(SIZE, SIZE),
  grain: 'area' as const,
  ...PAIR,
  period: { first: 2022, last: 2024 },
  seed: 1,
  permutations: 999,
};
const squares = [...setting.neighbours.keys()];

/** Invented: 16 of 20 resistant in a block of nine squares, 2 of 20 elsewhere. */
const block = squares.map((place) => observation(place, inBlock(place) ? 16 : 2, 20));
/** Invented: 4 or 5 of 20 in turn, which is less like its neighbours than chance. */
const chequered = squares.map((place, i) => observation(place, 4 + ((i + Math.floor(i / SIZE)) % 2), 20));

describe('clustering', () => {
  it('finds a planted block, its core raised together with its neighbours', () => {
    const found = findClustering({ ...setting, observations: block });
    expect(found.global!.index).toBeGreaterThan(0.5);
    expect(found.global!.p).toBe(0.001);
    expect(found).toMatchObject({ places: 64, isolated: 0, reason: null });
    const raised = found.local.filter(({ pattern }) => pattern === 'more around here');
    expect(raised.map(({ place }) => place)).toContain(squareKey(2, 2));
    // A place beside the block has it among its neighbours.
    for (const { place } of raised) {
      const near = [place, ...setting.neighbours.get(place)!];
      expect(near.some(inBlock)).toBe(true);
    }
    expect(found.sentence).toMatch(
      /ABCDE, group 9, 2022–2024: 254 of 1,280 populations screened in 64 counties and areas were resistant/,
    );
    expect(found).toMatchObject({ verdict: 'lie together', tests: 2, detectable: null });
    expect(found.p).toBeLessThan(1e-20);
    expect(found.where).toContain(squareKey(2, 2));
    expect(found.sentence).toContain(
      'resistant populations lie together more than chance would bring (p < 0.001, 2 tests allowed for)',
    );
  });

  it('finds none in a map that alternates, and says that chance could have made it', () => {
    const found = findClustering({ ...setting, observations: chequered });
    expect(found.global!.p).toBeGreaterThan(0.9);
    expect(found).toMatchObject({ verdict: 'no sign', where: [] });
    expect(found.sentence).toContain('there is no sign that resistant populations lie together');
  });

  it('finds a square that differs from all around it, whatever the number of orders', () => {
    const one = squares.map((place) => observation(place, place === 'r4c4' ? 20 : 2, 20));
    const found = findClustering({ ...setting, observations: one, permutations: 99 });
    const [own] = found.local.filter(({ place }) => place === 'r4c4');
    expect(own).toMatchObject({ pattern: 'more around here', resistant: 20 + 2 * (own!.tested / 20 - 1) });
  });

  it('names the strongest circle, which is the planted block, where points are given', () => {
    const points = pointsOf(squares);
    const found = findClustering({ ...setting, observations: block, points });
    expect(found.where).toEqual(found.strongest!.places);
    const inside = found.strongest!.places.filter(inBlock).length;
    expect(inside).toBeGreaterThanOrEqual(7);
    expect(found.strongest!.places.length - inside).toBeLessThanOrEqual(2);
    expect(found.strongest!.p).toBe(0.001);
    expect(found.sentence).toMatch(
      /Most for what was screened: in the \d+ counties and areas within \d+ km of r2c2/,
    );
    expect(findClustering({ ...setting, observations: chequered, points }).sentence).not.toContain(
      'Most for what',
    );
  });

  it('says of a map without a sign what its testing could have shown, or that it could have shown nothing', () => {
    const points = pointsOf(squares);
    const well = findClustering({ ...setting, observations: chequered, points });
    expect(well.detectable!.tested).toBeGreaterThanOrEqual(20);
    expect(well.detectable!.shareInside).toBeCloseTo((1 + 288 / 1_280) / 2, 9);
    expect(well.sentence).toMatch(
      /would have shown, four times in five, a cluster of about \d+ populations \(.*\) with 61 % resistant/,
    );
    const thin = squares.map((place, i) => observation(place, Number(i % 32 === 5), 1));
    const barely = findClustering({ ...setting, observations: thin, points });
    expect(barely).toMatchObject({ verdict: 'no sign', detectable: null });
    expect(barely.sentence).toContain('a real cluster would mostly have stayed unseen');
  });

  it('tells staff how many operations lie together, and a reader of releases nothing of them', () => {
    const sentBy = (operationOf: (place: string, i: number) => string) =>
      new Map(
        block.map(({ place, tested, resistant }, i) => [
          place,
          [{ operation: operationOf(place, i), tested, resistant }],
        ]),
      );
    const staff = (senders: ReturnType<typeof sentBy>) =>
      findClustering({ ...setting, observations: block, senders });
    const one = staff(sentBy((place) => (inBlock(place) && place !== 'r2c2' ? 'A' : place)));
    const raised = one.where.filter(inBlock).length;
    expect(one.madeOf).toMatchObject({ largestOperation: 16 * (raised - 1), operations: 2 });
    expect(one.sentence).toContain('half or more of this is one sender');
    const all = staff(sentBy(() => 'A'));
    expect(all.madeOf).toMatchObject({ operations: 1 });
    expect(all.sentence).toContain('this is one sender, not a cluster of farms');
    expect(staff(sentBy((_, i) => `operation ${i}`)).sentence).toContain('at most 16 from one');
    const open = findClustering({ ...setting, observations: block });
    expect(open).not.toHaveProperty('madeOf');
    expect(open.sentence).not.toMatch(/operation|sender/);
  });

  it('tells a pattern from a map without any in at most one of twenty', () => {
    const random = new Random(7);
    const points = pointsOf(squares);
    // Invented: one share for all, 1 to 12 tested. Of 100 null maps 5 are expected at most; 13 are beyond 99.8 %.
    const told = Array.from({ length: 100 }, (_, seed) => {
      const observations = squares.map((place, i) => {
        const tested = 1 + ((i * 5) % 12);
        let resistant = 0;
        for (let k = 0; k < tested; k += 1) resistant += Number(random.uniform() < 0.3);
        return observation(place, resistant, tested);
      });
      return findClustering({ ...setting, observations, points, seed, permutations: 199 });
    }).filter(({ verdict }) => verdict === 'lie together');
    expect(told.length).toBeLessThan(13);
  });

  it('does not depend on the order of its input', () => {
    const expected = findClustering({ ...setting, observations: block });
    fc.assert(
      fc.property(fc.shuffledSubarray(block, { minLength: block.length }), (observations) => {
        const shuffled = new Map(
          [...setting.neighbours].toReversed().map(([at, list]) => [at, [...list].reverse()]),
        );
        expect(findClustering({ ...setting, observations, neighbours: shuffled })).toEqual(expected);
      }),
      { numRuns: 5 },
    );
  });

  it('is the same whether a withheld place is known to exist or not', () => {
    const known = block.filter(({ place }) => place !== 'r5c5');
    const neighbours = new Map([...setting.neighbours].filter(([place]) => place !== 'r5c5'));
    expect(findClustering({ ...setting, observations: known, neighbours })).toEqual(
      findClustering({ ...setting, observations: known }),
    );
  });

  it('takes a place with nothing tested as unknown, never as zero', () => {
    const known = block.filter(({ place }) => place !== 'r0c0');
    const untested = [...known, observation('r0c0', 0, 0)];
    expect(findClustering({ ...setting, observations: untested })).toEqual(
      findClustering({ ...setting, observations: known }),
    );
  });

  it('counts a known place without a known neighbour, lists it and leaves it out', () => {
    const around = ['r0c1', 'r1c0'];
    const island = block.filter(({ place }) => !around.includes(place));
    const found = findClustering({ ...setting, observations: island });
    expect(found).toMatchObject({ places: 61, isolated: 1 });
    expect(found.local).toHaveLength(62);
    expect(found.local[0]).toEqual({
      place: 'r0c0',
      pattern: 'too little tested',
      ...{ tested: 20, resistant: 2, expected: 2, p: 1, adjustedP: 1 },
    });
    expect(found.sentence).toContain('1 county or area without a neighbour of known count was left out');
    const without = findClustering({
      ...setting,
      observations: island.filter(({ place }) => place !== 'r0c0'),
    });
    expect(found.global).toEqual(without.global);
  });

  it('of two seeds agrees within Monte Carlo error', () => {
    const noisy = squares.map((place, i) => observation(place, (i * 7) % 11, 20));
    const p = [1, 2].map((seed) => findClustering({ ...setting, observations: noisy, seed }).global!.p);
    expect(Math.abs(p[0]! - p[1]!)).toBeLessThan(5 * Math.sqrt(0.5 / 999));
  });

  it('gives p in (0, 1], adjusted p no smaller, and shares no word that the trade avoids', () => {
    const counts = fc.tuple(fc.nat(9), fc.integer({ min: 9, max: 12 }));
    fc.assert(
      fc.property(fc.array(counts, { minLength: 64, maxLength: 64 }), (cells) => {
        const observations = cells.map(([x, n], i) => observation(squares[i]!, x, n));
        const found = findClustering({ ...setting, observations, permutations: 99 });
        for (const { p, adjustedP } of found.local)
          expect(p > 0 && p <= adjustedP && adjustedP <= 1).toBe(true);
        expect(found.sentence).not.toMatch(
          /outbreak|hot ?spot|resistant count(y|ies)|NaN|undefined|% of fields/,
        );
      }),
      { numRuns: 20 },
    );
  });
});

describe('clustering without a verdict', () => {
  it.each<[string, Observation[], RegExp]>([
    [
      'too few known places',
      block.slice(0, 19),
      /^Only 19 counties and areas with a known count lie next to another one; at least 20/,
    ],
    ['nothing known', [], /^No county or area with a known count lies next to another one/],
    ['none resistant', block.map((o) => ({ ...o, resistant: 0 })), /^No resistant population was found/],
    ['all resistant', block.map((o) => ({ ...o, resistant: 20 })), /^The share is the same in all counties/],
  ])('%s: says why', (_, observations, reason) => {
    const found = findClustering({ ...setting, observations });
    expect(found.reason).toMatch(reason);
    expect(found).toMatchObject({
      ...{ verdict: 'too little tested', p: null, where: [], detectable: null },
      ...{ global: null, local: [], strongest: null },
    });
    expect(found.sentence).toContain('too little tested to say');
    expect(found.sentence).toContain(found.reason);
  });

  it('refuses a place that is given twice, and names it', () => {
    expect(() => findClustering({ ...setting, observations: [...block, block[3]!] })).toThrow(
      /Two observations of county r0c3, ABCDE, group 9, 2022–2024/,
    );
  });
});

function pointsOf(keys: readonly string[]): Map<string, { lon: number; lat: number }> {
  return new Map(
    keys.map((place) => [place, { lon: Number(place[3]) * 0.5, lat: 40 + Number(place[1]) * 0.4 }]),
  );
}

function inBlock(place: string): boolean {
  return /^r[123]c[123]$/.test(place);
}
