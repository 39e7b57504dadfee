import { describe, expect, it } from 'vitest';
import { clopperPearson, upperLimit } from '@/lib/stats/clopper-pearson';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import expected from '../../fixtures/stats/intervals-expected.json';

// Source of all values: Newcombe 1998, Statistics in Medicine 17:857–872, Table I; digits by R 4.2.2 (see fixture).
describe('the four cases of Newcombe 1998, Table I', () => {
  for (const [
    row,
    { cases, tested, wilson, wilson99, clopperPearson: exact, upper95 },
  ] of expected.rows.entries()) {
    it(`${cases} of ${tested}: Wilson, 95 % and 99 %`, () => {
      close(wilsonInterval(cases, tested), wilson, 8);
      close(wilsonInterval(cases, tested, 0.99), wilson99, 8);
      close(wilsonInterval(cases, tested), expected.printedWilson[row]!, 4);
    });

    it(`${cases} of ${tested}: Clopper–Pearson and its one-sided upper limit`, () => {
      close(clopperPearson(cases, tested), exact, 8);
      close(clopperPearson(cases, tested), expected.printedClopperPearson[row]!, 4);
      expect(upperLimit(cases, tested)).toBeCloseTo(upper95, 8);
    });
  }
});

function close({ low, high }: { low: number; high: number }, [a, b]: number[], digits: number): void {
  expect(low).toBeCloseTo(a!, digits);
  expect(high).toBeCloseTo(b!, digits);
}
