import type { MatchedTotals } from './find-matched-change';
import type { Names } from './names';
import type { MatchedChange } from './types';
import { ofScreened, places, ratio, SUBMISSIONS_CAUTION } from './wording';

/** What changed between two seasons among the same places, for a reader without statistics. */
export function matchedChangeSentence(
  change: Omit<MatchedChange, 'sentence'>,
  totals: MatchedTotals,
  names: Names,
): string {
  const { species, group, from, to, grain, reason } = change;
  const about = `${names.species(species)}, group ${group}, ${from} to ${to}`;
  if (change.places === 0) return `${about}: ${reason}`;
  const counts =
    `in the ${places(change.places, grain)} screened in both seasons, ${ofScreened(totals.fromResistant, totals.fromTested)} ` +
    `in ${from}, and ${ofScreened(totals.toResistant, totals.toTested)} in ${to}.`;
  return `${about}: ${counts} ${reason ?? verdict(change)} ${SUBMISSIONS_CAUTION}`;
}

function verdict({ oddsRatio, low, high, from, to, grain }: Omit<MatchedChange, 'sentence'>): string {
  const compared = `Comparing each ${grain} with itself, the odds of a resistant population in ${to} were ${ratio(oddsRatio!)} times those in ${from}`;
  const interval = `(95 % interval ${ratio(low!)} to ${ratio(high!)})`;
  if (low! > 1) return `${compared} ${interval}: more than chance would bring.`;
  if (high! < 1) return `${compared} ${interval}: less than chance would bring.`;
  return `${compared} ${interval}: no clear change.`;
}
