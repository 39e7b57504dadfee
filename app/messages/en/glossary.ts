import type { Term } from '../article';

export const glossaryPage = {
  heading: 'Words',
  intro:
    'What the words on these pages mean. Where a word has several uses in the trade, this is the one meant here.',
};

/** In alphabetical order of this language; a term has the same key in every language. */
export const glossary: Readonly<Record<string, Term>> = {
  active: {
    term: 'active ingredient',
    meaning:
      'The substance in a herbicide that acts on the plant, by its common name as ISO lists it. One group holds several; only those that were tested are spoken for.',
  },
  area: {
    term: 'area',
    meaning:
      'Adjoining counties of one district that are counted together in a run of seasons, because each alone is too little to be shown. It keeps its counties for good.',
  },
  assay: {
    term: 'assay',
    meaning:
      'How a population was tested: whole plants sprayed in a greenhouse, a herbicide in the soil before they come up, or a look for known mutations (molecular).',
  },
  definition: {
    term: 'case definition',
    meaning: 'The line from which on a population counts as resistant. It has a version.',
  },
  check: {
    term: 'check',
    meaning:
      'Plants sown beside the samples of a run: known to be susceptible, known to be resistant, or left untreated. They show whether the run worked.',
  },
  cluster: {
    term: 'cluster',
    meaning:
      'Neighbouring places with more resistant populations than chance would bring, allowing for how many were screened. Here: “lie together”.',
  },
  confirmed: {
    term: 'confirmed',
    meaning: 'At least one population from there was resistant, and that may be shown.',
  },
  interval: {
    term: '95 % interval',
    meaning:
      'From where to where the share of all populations like these could lie. It is long where few were screened.',
  },
  cross: {
    term: 'cross-resistance',
    meaning: 'One mechanism that protects a plant from several active ingredients, often of one group.',
  },
  design: {
    term: 'design',
    meaning:
      'How samples were chosen: sent in on suspicion, at random, stratified, as a follow-up, along roads.',
  },
  dioecious: {
    term: 'dioecious',
    meaning: 'With male and female plants, as waterhemp and Palmer amaranth. Only female plants bear seed.',
  },
  district: {
    term: 'district',
    meaning: 'Several counties of a state that a programme reports on together.',
  },
  erratum: {
    term: 'erratum',
    meaning: 'What was found wrong with a release after it was published. It stands beside the release.',
  },
  first: {
    term: 'first detection',
    meaning:
      'The first season, or run of seasons, in which a place is shown as confirmed. Only “new after a clean record” speaks of an arrival.',
  },
  group: {
    term: 'group',
    meaning:
      'Herbicides that act at the same site in the plant, by the harmonised number of 2020: group 9 inhibits EPSP synthase. Group 0 holds those whose site is unknown.',
  },
  matched: {
    term: 'matched change',
    meaning: 'A comparison of two seasons in which each place is compared with itself only.',
  },
  multiple: {
    term: 'multiple resistance',
    meaning: 'A population that is resistant to several groups. One plant need not be.',
  },
  nopublic: {
    term: 'no public information',
    meaning:
      'Something was screened, and too little of it, or of those who sent it, to show it. It looks the same whatever was found.',
  },
  notscreened: {
    term: 'not screened',
    meaning: 'No samples came from there. Nothing is known, which is not the same as none found.',
  },
  odds: {
    term: 'odds ratio',
    meaning:
      'How many times the odds of a resistant population are those of another season. 1 is no difference.',
  },
  operation: {
    term: 'operation',
    meaning: 'A farm or whoever sends seed for it, known by an opaque code. Its name is nowhere here.',
  },
  population: {
    term: 'population',
    meaning: 'One weed from one field in one season, as seed. It is what is screened and counted.',
  },
  release: {
    term: 'release',
    meaning: 'A numbered publication of counts, findings and files that never changes.',
  },
  resistance: {
    term: 'resistance',
    meaning:
      'The inherited ability of a plant to survive and set seed after a dose that normally kills its kind. A population is resistant; a county or a field is not.',
  },
  run: {
    term: 'run of seasons',
    meaning: 'Several closed seasons that are counted together, three unless the programme chose otherwise.',
  },
  screened: {
    term: 'screened',
    meaning: 'Tested in the greenhouse with a result. Seed that did not grow was received, not screened.',
  },
  season: {
    term: 'season',
    meaning: 'The year in which the seed was collected. A closed season changes by batches only.',
  },
  survivors: {
    term: 'some survivors',
    meaning: 'Plants lived, fewer than the case definition asks for. Not counted as resistant.',
  },
  susceptible: {
    term: 'susceptible',
    meaning: 'Killed by the dose of the label or a lower one.',
  },
  tolerance: {
    term: 'tolerance',
    meaning: 'A kind of plant that the herbicide never controlled. That is no resistance.',
  },
  withheld: {
    term: 'withheld',
    meaning: 'Known to the programme and not shown, so that nobody is told on.',
  },
};
