import { periodLabel } from '@/lib/vocabulary/terms';
import { list, number, ofScreened, probability, ratio } from '../wording';
import type { GroupPair, MultipleAnalysis } from './types';

/** Which groups come together, and how many populations are resistant to several; each also where there is too little. */
export function multipleSentences(
  found: Omit<MultipleAnalysis, 'sentences'>,
  speciesName: string,
): MultipleAnalysis['sentences'] {
  const about = `${speciesName}, ${periodLabel({ first: found.seasons[0], last: found.seasons[1] })}`;
  return { together: together(found, about), growth: growth(found, about) };
}

const LEVEL = 0.05;

function together({ pairs }: Omit<MultipleAnalysis, 'sentences'>, about: string): string {
  if (pairs.length === 0) return `${about}: no population was screened for two groups.`;
  const testable = pairs.filter(({ oddsRatio, p }) => oddsRatio !== null || p < 1);
  if (testable.length === 0)
    return `${about}: not enough to say whether groups come together in one population.`;
  const beyond = testable.filter(({ p, both, oddsRatio }) => p <= LEVEL && isMore({ both, oddsRatio }));
  const seldom = testable.filter(({ p, both, oddsRatio }) => p <= LEVEL && !isMore({ both, oddsRatio }));
  const compared = `among populations of the same district and season (${testable.length === 1 ? 'one pair' : `${number(testable.length)} pairs`} of groups looked at)`;
  if (beyond.length + seldom.length === 0)
    return `${about}: no two groups come together in the same population more or less often than each by itself explains, ${compared}.`;
  const told = [
    ...(beyond.length > 0
      ? [`come together in the same population beyond chance: ${list(beyond.map(pairWords))}`]
      : []),
    ...(seldom.length > 0
      ? [`come together less than chance would bring: ${list(seldom.map(pairWords))}`]
      : []),
  ];
  return `${about}: resistances ${told.join('; ')}, ${compared}.`;
}

function isMore({ oddsRatio, both }: Pick<GroupPair, 'oddsRatio' | 'both'>): boolean {
  // Without an end the odds are one way only: never together, or never apart.
  return oddsRatio === null ? both > 0 : oddsRatio > 1;
}

function pairWords({ first, second, oddsRatio, low, high, p }: GroupPair): string {
  const odds =
    oddsRatio === null
      ? oneSided(low, high)
      : `odds ratio ${ratio(oddsRatio)}, 95 % interval ${ratio(low ?? 0)} to ${high === null ? 'no upper limit' : ratio(high)}; `;
  return `groups ${first} and ${second} (${odds}${probability(p)})`;
}

/** Where they are always, or never, together the odds have no value but a limit. */
function oneSided(low: number | null, high: number | null): string {
  if (low !== null && low > 0) return `odds ratio at least ${ratio(low)}; `;
  return high === null ? '' : `odds ratio at most ${ratio(high)}; `;
}

function growth({ bySeason, trends }: Omit<MultipleAnalysis, 'sentences'>, about: string): string {
  const told = trends.flatMap(({ groups, p, rises }) => {
    const rows = bySeason.filter((row) => row.groups === groups && row.tested > 0);
    // Of four groups and more there is mostly nothing to say.
    if (groups > 2 && rows.every(({ atLeast }) => atLeast === 0)) return [];
    const [first, last] = [rows[0], rows.at(-1)];
    if (!first || !last) return [];
    const newest = `${ofScreened(last.atLeast, last.tested, ` for so many in ${last.season}`)} to at least ${groups} groups`;
    const oldest =
      first === last ? '' : `, ${number(first.atLeast)} of ${number(first.tested)} in ${first.season}`;
    const way =
      p === null
        ? ''
        : p > LEVEL
          ? ` (no clear trend, ${probability(p)})`
          : ` (${rises ? 'a rise' : 'a fall'}, ${probability(p)})`;
    return [`${newest}${oldest}${way}`];
  });
  if (told.length === 0)
    return `${about}: no population was screened for two groups, so none can show multiple resistance.`;
  return `${about}: ${told.join('; ')}. What is sent and what it is screened for changes from season to season; p takes populations as independent.`;
}
