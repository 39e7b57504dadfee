import { isAreaKey } from '@/lib/geography/areas';
import { type PlaceKind, periodLabel } from '@/lib/vocabulary/terms';
import type { Names } from './names';
import type { Clustering, LocalPattern, Observation } from './types';
import { list, number, ofScreened, places, placeWord, probability, singular } from './wording';

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
    ...circle(found, names),
    ...leftOut(found),
  ].join(' ');
}

function overall({ grain }: Pick<Clustering, 'grain'>, p: number): string {
  const allowing = `Allowing for how many were screened in each ${singular(grain)}`;
  return p <= 0.05
    ? `${allowing}, ${placeWord(grain)} where many were resistant lie together more than chance would bring (${probability(p)}).`
    : `${allowing}, chance alone could have spread them like this (${probability(p)}).`;
}

/** Lists the places of each pattern that was found, the surest first. */
function standouts({ local, grain }: Omit<Clustering, 'sentence'>, names: Names): string[] {
  const lines = STANDOUTS.flatMap(({ pattern, words }) => {
    const named = local
      .filter((entry) => entry.pattern === pattern)
      .sort((a, b) => a.p - b.p || (a.place < b.place ? -1 : 1))
      .map(({ place }) => names.place(kindOf(place, grain), place));
    return named.length > 0 ? [`${words} ${list(named)}.`] : [];
  });
  if (lines.length > 0) return lines;
  return [
    `No single ${singular(grain)} stands out with its neighbours once it is allowed for how many were looked at.`,
  ];
}

const STANDOUTS: readonly { pattern: LocalPattern; words: string }[] = [
  { pattern: 'more around here', words: 'More than expected were resistant in and around' },
  { pattern: 'less around here', words: 'Fewer than expected were resistant in and around' },
];

/** The circle that stands out most, where it is more than chance. */
function circle({ strongest, grain }: Omit<Clustering, 'sentence'>, names: Names): string[] {
  if (!strongest || strongest.p > 0.05) return [];
  const { centre, places: members, radiusKm, tested, resistant, expected, p } = strongest;
  const middle = names.place(kindOf(centre, grain), centre);
  const which =
    members.length === 1
      ? `in ${middle} alone`
      : `in the ${places(members.length, grain)} within ${number(Math.round(radiusKm))} km of ${middle}`;
  return [
    `Most for what was screened: ${which}, ${number(resistant)} of ${number(tested)} were resistant where ${number(Math.round(expected))} would be expected (${probability(p)}, all such circles allowed for).`,
  ];
}

/** An area goes by its counties, a county that is one by itself by its own name. */
function kindOf(place: string, grain: Clustering['grain']): PlaceKind {
  return grain === 'area' && !isAreaKey(place) ? 'county' : grain;
}

function leftOut({ isolated, grain }: Omit<Clustering, 'sentence'>): string[] {
  if (isolated === 0) return [];
  const verb = isolated === 1 ? 'was' : 'were';
  return [`${places(isolated, grain)} without a neighbour of known count ${verb} left out.`];
}
