import { expect, it } from 'vitest';
import { closingConsequence } from '@/lib/jobs/close-season';

const asked = { closed: [2019, 2020, 2021, 2022, 2023], firstSeason: 2019, windowLength: 3 };

it('closing the last season of a window completes it', () => {
  expect(closingConsequence(2024, asked)).toEqual({ completes: [{ first: 2022, last: 2024 }], waits: null });
});

it('a season of a window with open ones waits for them', () => {
  expect(closingConsequence(2025, { ...asked, closed: [...asked.closed, 2024] })).toEqual({
    completes: [],
    waits: { window: { first: 2025, last: 2027 }, open: [2026, 2027] },
  });
});

it('a season closed before an earlier one waits for that one alone', () => {
  expect(closingConsequence(2024, { ...asked, closed: [2019, 2020, 2021, 2022] })).toEqual({
    completes: [],
    waits: { window: { first: 2022, last: 2024 }, open: [2023] },
  });
});
