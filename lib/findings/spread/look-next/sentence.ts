import { CODES, type Names } from '../../names';
import {
  list,
  number,
  placeWord,
  populations as populationWords,
  probability,
  places as some,
} from '../../wording';
import type { LookNext } from './types';

/** What a reader is told; where there is no model, that there is not enough to say and why. */
export function lookNextSentence(found: Omit<LookNext, 'sentence'>, names: Names = CODES): string {
  const { species, group, season, placeKind, populations, places, model, noModel, order } = found;
  const head = `${names.species(species)}, group ${group}, ${season}:`;
  if (places.length === 0)
    return `${head} it was found in all ${placeWord(placeKind)}, so there is no first find to look for.`;
  if (model === null) {
    return `${head} not enough to say where a first find is most to be expected: ${noModel!.message}. ${RULE[order as keyof typeof RULE]}, a rule of thumb and no estimate.`;
  }
  const top = places.slice(0, TOP);
  const expected = top.reduce((sum, { chance }) => sum + chance!, 0);
  const first = list(top.slice(0, 3).map(({ place }) => names.place(placeKind, place)));
  const each = `${populationWords(populations)} ${populations === 1 ? 'was' : 'were'} screened from each`;
  const doubt =
    model.p < 0.05
      ? ''
      : ` New finds have not been shown to come near earlier ones (${probability(model.p)}), so the order may be little better than chance.`;
  return `${head} a first find is most to be expected in ${first}. If ${each} of the ${some(top.length, placeKind)} at the head of the list, ${about(expected)} would be new finds.${doubt}`;
}

const TOP = 10;

const RULE = {
  'found neighbours': 'The list begins with those that have most found neighbours and were tested least',
  'lack of testing': 'The list begins with those that were tested least',
};

function about(expected: number): string {
  return expected < 0.95 ? 'less than one' : `about ${number(Math.round(expected))}`;
}
