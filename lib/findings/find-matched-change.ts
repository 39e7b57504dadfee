import { mantelHaenszel } from '@/lib/stats/mantel-haenszel';
import type { Season } from '@/lib/vocabulary/terms';
import { knownInSeason } from './known-places';
import { matchedChangeSentence } from './matched-change-sentence';
import { CODES, type Names } from './names';
import type { MatchedChange, Observation } from './types';

export interface MatchedChangeInput {
  /** Of this species and group at this grain, single seasons, in any order; other seasons are passed over. */
  observations: readonly Observation[];
  from: Season;
  to: Season;
  grain: MatchedChange['grain'];
  species: MatchedChange['species'];
  group: MatchedChange['group'];
  names?: Names;
}

/** Tested and resistant of the matched places, summed. */
export interface MatchedTotals {
  fromTested: number;
  fromResistant: number;
  toTested: number;
  toResistant: number;
}

/**
 * Is the share higher than in an earlier season, comparing each place with itself? Only places tested in both seasons
 * enter, so that neither new places nor more seed from the old ones look like a change (Mantel–Haenszel).
 *
 * @throws RangeError for a place given twice in a season; StatsError for impossible counts
 */
export function findMatchedChange(input: MatchedChangeInput): MatchedChange {
  const { from, to, grain, species, group, names = CODES } = input;
  const earlier = new Map(
    knownInSeason(input.observations, grain, from).map((observation) => [observation.place, observation]),
  );
  const pairs = knownInSeason(input.observations, grain, to).flatMap((later) => {
    const before = earlier.get(later.place);
    return before ? [{ before, later }] : [];
  });
  const { oddsRatio, low, high, p, reason } = mantelHaenszel({
    cases: pairs.map(({ later }) => later.resistant),
    tested: pairs.map(({ later }) => later.tested),
    referenceCases: pairs.map(({ before }) => before.resistant),
    referenceTested: pairs.map(({ before }) => before.tested),
  });
  const totals: MatchedTotals = { fromTested: 0, fromResistant: 0, toTested: 0, toResistant: 0 };
  for (const { before, later } of pairs) {
    totals.fromTested += before.tested;
    totals.fromResistant += before.resistant;
    totals.toTested += later.tested;
    totals.toResistant += later.resistant;
  }
  const change: Omit<MatchedChange, 'sentence'> = {
    kind: 'matched change',
    species,
    group,
    from,
    to,
    grain,
    places: pairs.length,
    oddsRatio,
    low,
    high,
    p,
    reason: reason && REASONS[reason],
  };
  return { ...change, sentence: matchedChangeSentence(change, totals, names) };
}

const REASONS = {
  'no stratum with both': 'No place has a known count in both seasons, so like cannot be compared with like.',
  'no cases': 'No resistant population was found in either season.',
  'all cases': 'Every population screened was resistant in both seasons.',
  'no discordance': 'No place had resistant and other populations to set against each other.',
  infinite: 'No place points to a fall, so the size of the rise cannot be estimated.',
  zero: 'No place points to a rise, so the size of the fall cannot be estimated.',
} as const;
