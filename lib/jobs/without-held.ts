import type { TestRow } from '@/db/repositories/facts';

/**
 * What may enter a release: of a population whose result in a group is a first find that awaits its second run, nothing
 * of that group, since what is left would call it something else.
 */
export function withoutHeld(tests: readonly TestRow[]): { released: TestRow[]; held: number } {
  const keyOf = ({ population, group, assay }: TestRow) => `${population}|${group}|${assay}`;
  const held = new Set(tests.filter((test) => test.held).map(keyOf));
  return { released: tests.filter((test) => !held.has(keyOf(test))), held: held.size };
}
