import { expect, it } from 'vitest';
import { policyWarning } from '@/lib/jobs/policy-warning';
import type { Level, PublishedShare } from '@/lib/jobs/published-shares';

function line(level: Level, cells: number, published: number): PublishedShare {
  const withheld = cells - published;
  return { level, cells, published, withheld, primary: withheld, leftOut: 0, populations: 0, inside: 0 };
}

it.each([
  ...[[0, 0, /withholds everything/] as const],
  ...[[3, 4, /withholds nearly everything: only 7 of 1,100 screened cells are shown\./] as const],
  ...[[0, 60, /withholds nearly everything: only 60 of 1,100/] as const],
  ...[[0, 90, /withholds nearly everything/] as const],
  ...[[0, 100, /withholds nearly everything/] as const],
  ...[[100, 989, /withholds nearly nothing: 11 of 1,100 screened cells are not shown\./] as const],
  ...[[100, 1000, /withholds nothing/] as const],
])('says so where %i of 100 counties and %i of 1,000 seasons are shown', (windows, seasons, words) => {
  const shares = [line('county or area × window', 100, windows), line('state × season', 1000, seasons)];
  expect(policyWarning(shares, { windowLength: 3 }, 9)).toMatch(words);
});

it('says of a map that is empty below districts that it is, and nothing of an ordinary policy', () => {
  const empty = [line('county or area × window', 100, 0), line('state × season', 1000, 500)];
  expect(policyWarning(empty, { windowLength: 3 }, 9)).toMatch(/every county and area/);
  const ordinary = [line('county or area × window', 100, 60), line('state × season', 1000, 900)];
  expect(policyWarning(ordinary, { windowLength: 3 }, 9)).toBeNull();
});

it('says that no window is closed where none is', () => {
  const shares = [line('county or area × window', 0, 0), line('state × season', 10, 10)];
  expect(policyWarning(shares, { windowLength: 3 }, 2)).toMatch(
    /No window of 3 seasons is closed \(closed: 2\)/,
  );
});
