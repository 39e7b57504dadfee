import { describe, expect, it } from 'vitest';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { changesSince } from '@/lib/release/frozen';

// Invented.
const cell: ReleasedCell = {
  placeKind: 'district',
  place: 'KS-NW',
  period: { first: 2024, last: 2024 },
  species: 'KCHSC',
  group: 9,
  assay: 'whole plant',
  design: null,
  status: 'published',
  counts: { tested: 12, resistant: 5, someSurvivors: 1 },
  receipt: null,
  actives: ['glyphosate'],
  unfinished: false,
};
const open: ReleasedCell = {
  ...cell,
  placeKind: 'state',
  place: 'KS',
  period: { first: 2025, last: 2025 },
  unfinished: true,
};
const tested = (of: ReleasedCell, n: number): ReleasedCell => ({
  ...of,
  counts: { ...of.counts!, tested: n },
});

describe('what a second release may not change', () => {
  it('nothing, when a closed period looks as before and a new season is added', () => {
    expect(changesSince([cell], [cell, { ...cell, period: { first: 2025, last: 2025 } }])).toEqual([]);
  });

  it('is a closed cell, by one sample or by its status', () => {
    expect(changesSince([cell], [tested(cell, 13)])).toHaveLength(1);
    const withheld: ReleasedCell = { ...cell, status: 'withheld', counts: null, actives: [] };
    expect(changesSince([cell], [withheld])).toHaveLength(1);
    expect(changesSince([withheld], [cell])).toHaveLength(1);
    expect(changesSince([withheld], [withheld])).toEqual([]);
  });

  it('is a place that was not screened in a closed period, and a cell that vanishes', () => {
    expect(changesSince([cell], [cell, { ...cell, place: 'KS-NE' }])).toHaveLength(1);
    expect(changesSince([cell], [])).toHaveLength(1);
  });

  it('is an unfinished figure that grows by fewer than five populations', () => {
    expect(changesSince([open], [tested(open, 16)])).toHaveLength(1);
    expect(changesSince([open], [tested(open, 17)])).toEqual([]);
    expect(changesSince([open], [open])).toEqual([]);
  });

  it('never says a count', () => {
    for (const line of changesSince([cell, open], [tested(cell, 13), tested(open, 13)]))
      expect(line).not.toMatch(/\b1[23]\b/);
  });
});
