import { periodLabel } from '@/lib/vocabulary/terms';
import type { Names } from './names';
import type { Clustering, LocalPattern, Observation } from './types';
import { list, ofScreened, places, placeWord, probability, singular } from './wording';

/** What a map says about resistant populations lying together, for a reader without statistics. */
export function clusteringSentence(
  found: Omit<Clustering, 'sentence'>,
  entering: readonly Observation[],
  names: Names,
): string {
  const { species, group, period, grain, global, reason } = found;
  const about = `${names.species(species)}, group ${group}, ${periodLabel(period)}`;
  if (!global) return `${about}: no verdict on whether resistant populations lie together. ${reason}`;
  const tested = entering.reduce((sum, observation) => sum + observation.tested, 0);
  const resistant = entering.reduce((sum, observation) => sum + observation.resistant, 0);
  return [
    `${about}: ${ofScreened(resistant, tested, ` in ${places(found.places, grain)}`)}.`,
    overall(found, global.p),
    ...standouts(found, names),
    ...leftOut(found),
  ].join(' ');
}

function overall({ grain }: Pick<Clustering, 'grain'>, p: number): string {
  const allowing = `Allowing for how many were screened in each ${singular(grain)}`;
  return p <= 0.05
    ? `${allowing}, ${placeWord(grain)} where many were resistant lie together more than chance would bring (${probability(p)}).`
    : `${allowing}, chance alone could have spread them like this (${probability(p)}).`;
}

/** Lists the places of each pattern that was found. */
function standouts({ local, grain }: Omit<Clustering, 'sentence'>, names: Names): string[] {
  const lines = STANDOUTS.flatMap(({ pattern, words }) => {
    const named = local
      .filter((entry) => entry.pattern === pattern)
      .map(({ place }) => names.place(grain, place));
    return named.length > 0 ? [`${words} ${list(named)}.`] : [];
  });
  if (lines.length > 0) return lines;
  return [`No single ${singular(grain)} stands out once it is allowed for how many were looked at.`];
}

const STANDOUTS: readonly { pattern: LocalPattern; words: string }[] = [
  { pattern: 'raised, neighbours raised too', words: 'A higher share was found in these and around them:' },
  { pattern: 'stands out alone', words: 'A higher share than around them was found in:' },
  { pattern: 'lower, neighbours lower', words: 'A lower share was found in these and around them:' },
  { pattern: 'lower than around it', words: 'A lower share than around them was found in:' },
];

function leftOut({ isolated, grain }: Omit<Clustering, 'sentence'>): string[] {
  if (isolated === 0) return [];
  const verb = isolated === 1 ? 'was' : 'were';
  return [`${places(isolated, grain)} without a neighbour of known count ${verb} left out.`];
}
