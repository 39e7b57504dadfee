import { describe, expect, it } from 'vitest';
import { feasibleIntervals } from '@/lib/disclosure/audit/feasible-intervals';
import examples from '../../fixtures/disclosure/worked-examples.json';

// Published tables with withheld cells; source and provenance stand beside each in the fixture.
interface Example {
  name: string;
  source: string;
  provenance: string;
  cells: Record<string, number | null>;
  sums: { total: string; parts: string[] }[];
  expected: Record<string, number[]>;
  enumerate?: boolean;
  noneExact?: boolean;
}

const intervalsOf = ({ cells, sums }: Example) =>
  feasibleIntervals(
    Object.entries(cells).map(([id, value]) => ({ id, value })),
    sums,
  );

describe.each(examples as unknown as Example[])('$name ($source)', (example) => {
  it('gives the reader the intervals that the literature prints', async () => {
    const found = await intervalsOf(example);
    for (const [id, interval] of Object.entries(example.expected))
      expect([id, found.get(id)]).toEqual([id, interval]);
    if (example.noneExact) {
      for (const [id, value] of Object.entries(example.cells)) {
        const [low, high] = found.get(id)!;
        if (value === null) expect(high - low, id).toBeGreaterThan(0);
      }
    }
  });

  if (example.enumerate) {
    it('has the intervals that enumerating every table of whole numbers finds', async () => {
      const found = await intervalsOf(example);
      const enumerated = enumerate(example);
      for (const [id, interval] of enumerated) expect([id, found.get(id)]).toEqual([id, interval]);
    });
  }
});

/** Every table of whole numbers ≥ 0 that fits, by depth-first search over the withheld cells. */
function enumerate({ cells, sums }: Example): Map<string, [number, number]> {
  const values = new Map(Object.entries(cells));
  const hidden = [...values].filter(([, value]) => value === null).map(([id]) => id);
  const most = Math.max(...[...values.values()].map((value) => value ?? 0));
  const found = new Map<string, [number, number]>();
  const involved = (id: string) => sums.filter(({ total, parts }) => total === id || parts.includes(id));
  const search = (depth: number): void => {
    if (depth === hidden.length) {
      for (const id of hidden) {
        const value = values.get(id)!;
        const [low, high] = found.get(id) ?? [value, value];
        found.set(id, [Math.min(low, value), Math.max(high, value)]);
      }
      return;
    }
    const id = hidden[depth]!;
    for (let value = 0; value <= most; value++) {
      values.set(id, value);
      if (involved(id).every((sum) => canHold(sum, values))) search(depth + 1);
    }
    values.set(id, null);
  };
  search(0);
  return found;
}

function canHold({ total, parts }: Example['sums'][number], values: Map<string, number | null>): boolean {
  const known = parts.reduce((sum, part) => sum + (values.get(part) ?? 0), 0);
  const whole = values.get(total);
  if (whole === null || whole === undefined) return true;
  return parts.some((part) => values.get(part) === null) ? known <= whole : known === whole;
}
