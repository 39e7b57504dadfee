import { isAreaKey } from '@/lib/geography/areas';
import { type PlaceKind, periodLabel } from '@/lib/vocabulary/terms';
import type { Names } from './names';
import type { Clustering, LocalPattern, Observation } from './types';
import { list, number, ofScreened, percent, places, populations, probability, singular } from './wording';

/** What a map says about resistant populations lying together, for a reader without statistics. */
export function clusteringSentence(
  found: Omit<Clustering, 'sentence'>,
  entering: readonly Observation[],
  names: Names,
): string {
  const { species, group, period, grain, verdict, reason } = found;
  const about = `${names.species(species)}, group ${group}, ${periodLabel(period)}`;
  if (verdict === 'too little tested')
    return `${about}: too little tested to say whether resistant populations lie together. ${reason}`;
  const tested = entering.reduce((sum, observation) => sum + observation.tested, 0);
  const resistant = entering.reduce((sum, observation) => sum + observation.resistant, 0);
  const told =
    verdict === 'lie together' ? [...standouts(found, names), ...circle(found, names)] : unseen(found);
  return [
    `${about}: ${ofScreened(resistant, tested, ` in ${places(found.places, grain)}`)}.`,
    overall(found),
    ...told,
    ...oneSender(found),
    ...leftOut(found),
  ].join(' ');
}

function overall({ verdict, grain, p, tests }: Omit<Clustering, 'sentence'>): string {
  const allowing = `Allowing for how many were screened in each ${singular(grain)}`;
  const chance = `${probability(p!)}, ${tests} tests allowed for`;
  return verdict === 'lie together'
    ? `${allowing}, resistant populations lie together more than chance would bring (${chance}).`
    : `${allowing}, there is no sign that resistant populations lie together more than chance would bring (${chance}).`;
}

/** What such a map could have shown, so that nobody takes “no sign” for “none”. */
function unseen({ detectable, grain }: Omit<Clustering, 'sentence'>): string[] {
  if (!detectable) {
    return ['So little was screened, or found, that a real cluster would mostly have stayed unseen.'];
  }
  const { tested, places: members, radiusKm, shareInside } = detectable;
  const reach = members === 1 ? '' : ` within ${number(Math.round(radiusKm))} km`;
  return [
    `This testing would have shown, four times in five, a cluster of about ${populations(tested)} (${places(members, grain)}${reach}) with ${percent(shareInside)} resistant; a smaller or weaker one may be there unseen.`,
  ];
}

/** Staff only: `madeOf` is never there in a release. */
function oneSender({ madeOf }: Omit<Clustering, 'sentence'>): string[] {
  if (!madeOf) return [];
  const { resistant, operations, largestOperation } = madeOf;
  if (operations === 1)
    return [
      `All ${populations(resistant)} found resistant there came from one operation: this is one sender, not a cluster of farms.`,
    ];
  const from = `The ${populations(resistant)} found resistant there came from ${number(operations)} operations`;
  return 2 * largestOperation >= resistant
    ? [`${from}, ${number(largestOperation)} of them from one: half or more of this is one sender.`]
    : [`${from}, at most ${number(largestOperation)} from one.`];
}

/** Lists the places of each pattern that was found, the surest first. */
function standouts({ local, grain }: Omit<Clustering, 'sentence'>, names: Names): string[] {
  const lines = STANDOUTS.flatMap(({ pattern, words }) => {
    const named = local
      .filter((entry) => entry.pattern === pattern)
      .sort((a, b) => a.p - b.p || (a.place < b.place ? -1 : 1))
      .map(({ place }) => names.place(kindOf(place, grain), place));
    return named.length > 0 ? [`${words} ${list(named, MOST_NAMED)}.`] : [];
  });
  if (lines.length > 0) return lines;
  return [
    `No single ${singular(grain)} stands out with its neighbours once it is allowed for how many were looked at.`,
  ];
}

/** Areas have long names, and the map shows them all. */
const MOST_NAMED = 4;

const STANDOUTS: readonly { pattern: LocalPattern; words: string }[] = [
  { pattern: 'more around here', words: 'More than expected were resistant in and around' },
  { pattern: 'less around here', words: 'Fewer than expected were resistant in and around' },
];

/** The circle that stands out most, where it is what lies together. */
function circle({ strongest, where, grain }: Omit<Clustering, 'sentence'>, names: Names): string[] {
  if (!strongest || strongest.places.join() !== where.join()) return [];
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
