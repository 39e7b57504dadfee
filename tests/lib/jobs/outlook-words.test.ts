import { expect, it } from 'vitest';
import { outlookWords } from '@/lib/jobs/outlook-words';
import type { Waiting } from '@/lib/release/revision/types';

/** Invented. */
const WAITS: Waiting = {
  ...{ county: '31109', season: 2022, species: 'KCHSC', group: 9, entering: 1, leaving: 0, corrected: 0 },
  why: { reason: 'too few populations', cell: null },
};
const none = { open: 0, asReleased: 0, enters: 0, waits: 0, waiting: [] };

it('says of one population what becomes of it, and of none nothing', () => {
  expect(outlookWords(none)).toEqual([]);
  expect(outlookWords({ ...none, enters: 1 })).toEqual([
    'In public: it enters the next release, if the audit lets it.',
  ]);
  expect(outlookWords({ ...none, waits: 1, waiting: [WAITS] })).toEqual([
    'In public: it waits with other late changes (group 9: too few populations would change); of what waits nothing public changes yet.',
  ]);
});

it('counts several in one sentence, and names each reason once', () => {
  const [said, ...more] = outlookWords({
    ...{ open: 1, asReleased: 2, enters: 1_000, waits: 3 },
    waiting: [WAITS, { ...WAITS, county: '31067' }],
  });
  expect(more).toEqual([]);
  expect(said).toContain('of 1,006 populations: 1,000 enter the next release');
  expect(said!.match(/too few populations/g)).toHaveLength(1);
});
