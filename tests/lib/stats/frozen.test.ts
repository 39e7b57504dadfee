import { expect, it } from 'vitest';
import { getisOrd } from '@/lib/stats/getis-ord';
import { localMoran } from '@/lib/stats/local-moran';
import { minimumP } from '@/lib/stats/minimum-p';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { deriveSeed, Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';

// The output of each seeded routine, frozen: a change here changes published numbers, and belongs into
// the changelog.
const values = [1, 4, 2, 8, 5, 7, 3, 6];
const ring = buildWeights(
  values.map((_, i) => [(i + 1) % 8, (i + 7) % 8]),
  'row',
);

it('a seed gives the numbers that it always gave', () => {
  const random = new Random(42);
  expect([random.next(), random.below(100), random.uniform(), deriveSeed(42, 'a')]).toMatchInlineSnapshot(`
    [
      1776835114,
      96,
      0.003983993377814743,
      2938823396,
    ]
  `);
  const items = Int32Array.of(0, 1, 2, 3, 4, 5, 6, 7);
  random.shuffle(items);
  expect(items.join()).toMatchInlineSnapshot(`"0,1,7,3,2,6,4,5"`);
});

it('a seeded permutation test gives the p that it always gave', () => {
  const { pGreater, pLess } = moranPermutation(values, ring, { permutations: 999, random: new Random(42) });
  expect([pGreater, pLess]).toMatchInlineSnapshot(`
    [
      0.714,
      0.309,
    ]
  `);
});

it('a seeded local test gives the p that it always gave', () => {
  const { p } = localMoran(values, ring, { permutations: 999, random: new Random(42) });
  expect([...p]).toMatchInlineSnapshot(`
    [
      1,
      0.106,
      0.58,
      0.862,
      0.098,
      1,
      0.338,
      0.182,
    ]
  `);
});

it('a seeded local test of windows gives the p that it always gave', () => {
  const run = () => ({ permutations: 999, random: new Random(42) });
  expect([...getisOrd(values, ring, { statistic: 'G', ...run() }).p].join()).toMatchInlineSnapshot(
    `"1,0.106,0.58,0.862,0.098,1,0.338,0.182"`,
  );
  expect([...getisOrd(values, ring, { statistic: 'G*', ...run() }).p].join()).toMatchInlineSnapshot(
    `"0.654,0.08,0.976,0.788,0.092,0.788,0.576,0.462"`,
  );
  const tested = values.map(() => 9);
  const { adjusted } = minimumP(values, tested, ring, { replicates: 999, random: new Random(42) });
  expect([...adjusted].join()).toMatchInlineSnapshot(`"0.824,0.02,1,0.987,0.02,0.987,0.824,0.513"`);
});
