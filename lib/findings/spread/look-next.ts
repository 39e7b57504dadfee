import { StatsError } from '@/lib/stats/errors';
import { arrivals } from '@/lib/stats/spread/arrivals';
import type { Arrivals } from '@/lib/stats/spread/types';
import { averageChances } from './look-next/average-chances';
import { closenessMeasures, FOUND_BEFORE } from './look-next/closeness';
import { type ClosenessFits, fitCloseness } from './look-next/fit-closeness';
import { orderPlaces } from './look-next/order-places';
import { knownOfPlaces } from './look-next/places';
import { lookNextSentence } from './look-next/sentence';
import type { LookNext, LookNextInput, LookNextModel, LookNextOrder } from './look-next/types';

/**
 * Where to look next season: the places where nothing of a species × group was found so far, first those where a first
 * find is most to be expected.
 *
 * With a model the order is that of chance × relative crop area, where the chance of a first find, were so many populations
 * tested there, is 1 − exp(−populations × hazard × lack of testing):
 * - hazard of one population, fitted over all seasons so far by how near earlier finds are, averaged over five measures;
 * - lack of testing: 1 where never tested, ½ where its clean tests let expect one find;
 * - relative area: hectares of the crop over the mean of the places listed, where a table is loaded.
 * Lack of testing thins the hazard and not the chance: near many finds all chances are close to 1, and the order would be
 * that of lack of testing alone. Never tested places take the hazard of those tested before, which is an assumption.
 * Intervals allow for the choice among the measures, not for the model.
 *
 * Without a model (fewer than five places found after a clean record, one season, finds that do not come nearer …) the
 * order is a rule of thumb and `order` says so: most found neighbours first, then least tested; least tested alone
 * where nothing was found. Where nearness says nothing, that order costs nothing.
 *
 * @param input counts of all places of the region by season, of one assay, before the season to look at
 * @returns Staff only: exact counts go into it. Places with a find, here or before, are not listed. Equal places
 *   stand by key
 * @policy A season without tests says nothing; seasons that lack are no steps of time. Places without neighbours have none
 *   found. A place whose area is not told counts as the mean; one with a known area of 0 comes last. Finds across the
 *   region's line are not known. Seasons are taken as alike: where testing finds more from year to year for other reasons
 *   than nearness, chances are too low. How it did on simulated seasons: tests/reference/look-next-back-test.md
 * @throws StatsError `bad argument` where lengths differ, keys repeat, a season counted is not before the one to look at,
 *   populations is no whole number of 1 or more, an area is negative or no number; `bad count`
 * @source the project's statistics brief: expected chance of a first find × lack of testing
 * @cost O(places · (places found + seasons)), and five fits of two parameters
 */
export function lookNext(input: LookNextInput): LookNext {
  const { species, group, season, placeKind, places, populations = 4, counts, weights, points } = input;
  check(input, populations);
  const known = withEarlierFinds(arrivals(counts), input);
  const measures = closenessMeasures(known, counts.seasons.length, weights, points);
  const fitted = fitCloseness(counts, known, measures);
  const isModel = 'fits' in fitted;
  const listed = [...places.keys()].filter((i) => known.firstFound[i] === -1);
  const facts = knownOfPlaces(input, known, listed);
  const estimates = isModel ? averageChances(fitted.fits, counts, listed, populations) : null;
  const order: LookNextOrder = isModel ? 'hazard' : ORDER_WITHOUT[fitted.reason];
  const found: Omit<LookNext, 'sentence'> = {
    kind: 'look next',
    ...{ species, group, season, placeKind, populations, order },
    model: isModel ? modelOf(fitted) : null,
    noModel: isModel ? null : fitted,
    places: orderPlaces(facts, estimates, order),
  };
  return { ...found, sentence: lookNextSentence(found, input.names) };
}

export type { LookNext, LookNextInput } from './look-next/types';

const ORDER_WITHOUT = {
  'nothing found': 'lack of testing',
  'not nearer to finds': 'found neighbours',
  'one season': 'found neighbours',
  'too few finds': 'found neighbours',
  'nothing to compare': 'found neighbours',
  'no end': 'found neighbours',
} as const;

function withEarlierFinds(known: Arrivals, { places, foundBefore = [] }: LookNextInput): Arrivals {
  const earlier = new Set(foundBefore);
  return {
    ...known,
    firstFound: known.firstFound.map((found, i) => (earlier.has(places[i]!) ? FOUND_BEFORE : found)),
  };
}

function modelOf({ fits, p }: ClosenessFits): LookNextModel {
  const measures = fits.map(({ measure, fit, weight }) => {
    const { hazardRatio, low, high } = fit.estimates[0]!;
    return { name: measure.name, weight, hazardRatio, low, high };
  });
  const [{ fit }] = fits as [(typeof fits)[0]];
  return { measures, p, newFinds: fit.newFinds, rows: fit.rows.length };
}

function check(
  { places, counts, weights, season, exposure, foundBefore = [] }: LookNextInput,
  populations: number,
): void {
  const refuse = (what: string) => {
    throw new StatsError('bad argument', what);
  };
  const n = counts.places;
  if (places.length !== n || weights.places !== n || (exposure && exposure.hectares.length !== n)) {
    refuse(
      `Got ${places.length} keys, ${n} places counted, weights of ${weights.places}, ${exposure ? exposure.hectares.length : 'no'} areas; expected the same places in all.`,
    );
  }
  if (new Set(places).size !== n) refuse('A place stands there twice. Add its counts up first.');
  const stranger = foundBefore.find((place) => !places.includes(place));
  if (stranger !== undefined) refuse(`A find from before lies in ${stranger}, which is none of the places.`);
  const last = counts.seasons[counts.seasons.length - 1];
  if (!Number.isInteger(season) || (last !== undefined && last >= season)) {
    refuse(`Got season ${season} to look at, counts up to ${last}; expected a season after them.`);
  }
  if (!(Number.isInteger(populations) && populations >= 1)) {
    refuse(`Got ${populations} populations; expected a whole number of 1 or more.`);
  }
  for (let i = 0; exposure && i < n; i += 1) {
    const area = exposure.hectares[i]!;
    if (area !== null && !(area >= 0 && area < Number.POSITIVE_INFINITY)) {
      refuse(`Got an area of ${area} for ${places[i]}; expected hectares of 0 or more, or null.`);
    }
  }
}
