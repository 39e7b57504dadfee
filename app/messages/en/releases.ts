import type { CellTally, ReleaseChanges } from '@/lib/release/release-changes';
import { periodLabel } from '@/lib/vocabulary/terms';
import { count, day, list, many } from './format';

/** The pages of releases. */
export const releases = {
  heading: 'Releases',
  intro:
    'What the programme shows is published as numbered releases. A release never changes: a correction is a new release, and what is found wrong with one stands beside it as an erratum. A number is never used twice.',
  one: (number: number) => `Release ${number}`,
  dated: (date: string) => `Published ${day(date)}.`,
  newest: 'the newest',
  newer: (number: number) => `There is a newer one, release ${number}.`,
  read: (number: number) => `Read release ${number}`,
  map: 'Its map',
  none: 'No release stands at this moment.',
  note: 'What the programme says of it',
  changes: 'What changed',
  first: 'This was the first release that stood: there is none to compare it with.',
  uncounted: 'What changed was not counted when it was made; its files say what they can.',
  table: {
    caption: 'Cells that differ from the release before, by weed and herbicide group',
    weed: 'Weed',
    group: 'Group',
    appeared: 'New',
    changed: 'Say something else',
    hidden: 'Withheld now',
    shown: 'Published now',
    disappeared: 'No longer there',
  },
  holds: 'What it holds',
  facts: {
    seasons: 'Seasons closed',
    open: 'Season under way',
    windows: 'Runs of seasons',
    pairs: 'Weeds and herbicide groups',
    definition: 'Case definition',
    policy: 'Policy by which small counts are withheld',
    licence: 'Licence',
    tests: 'Seed and number of orders of the tests',
  },
  noneYet: 'none yet',
  policy: (version: string) => `Policy version ${version}`,
  cite: 'How to cite it',
  citation: (programme: string, year: string, title: string, date: string) =>
    `${programme} (${year}): ${title}. Published ${day(date)}.`,
  bibtex: 'The same as BibTeX',
  errata: 'Errata',
  withdrawn: (date: string) => `Withdrawn ${day(date)}`,
  gone: {
    heading: (number: number) => `Release ${number} was withdrawn`,
    dates: (published: string, withdrawn: string) =>
      `It was published ${day(published)} and taken back ${day(withdrawn)}. The reason that the programme gives:`,
    copies:
      'Its numbers and files are no longer served here. Copies that others have made cannot be called back: if you have one, do not use it, and tell those who got it from you.',
    number: 'Its number is not used again, so that nobody takes another release for it.',
  },
  unknown: {
    heading: (asked: string) => `There is no release “${asked}”`,
    there: 'These are the releases that there are:',
  },
  all: 'All releases',
};

/** What changed, sentence by sentence. */
export function changesSentences(changes: ReleaseChanges): string[] {
  const { since, all, same, further, seasons, windows, caseDefinition, policy } = changes;
  return [
    `Compared with release ${since.number} of ${day(since.date)}, by what both show in public and nothing else.`,
    ...(seasons.length > 0 ? [`Seasons closed since: ${list(seasons.map(String), { comma: ', ' })}.`] : []),
    ...(windows.length > 0
      ? [`New runs of seasons: ${list(windows.map(periodLabel), { comma: ', ' })}.`]
      : []),
    tallySentence(all),
    `${many(same, 'cell says', 'cells say')} the same as before.`,
    ...(further ?? []).map((one) => `${TABLES[one.table]}: ${tallySentence(one)}`),
    ...(caseDefinition
      ? [`Another case definition: version ${caseDefinition.now}, before ${caseDefinition.before}.`]
      : []),
    ...(policy
      ? [`Another policy by which small counts are withheld: version ${policy.now}, before ${policy.before}.`]
      : []),
  ];
}

const TABLES: Record<NonNullable<ReleaseChanges['further']>[number]['table'], string> = {
  crop: 'By crop',
  active: 'By active ingredient',
  'several groups': 'Multiple resistance',
};

function tallySentence({
  appeared,
  published,
  withheld,
  changed,
  hidden,
  shown,
  disappeared,
}: CellTally): string {
  if (appeared + changed + disappeared === 0) return 'No cell differs.';
  const parts = [
    `${many(appeared, 'cell is', 'cells are')} new (${count(published)} published, ${count(withheld)} withheld)`,
    `${many(changed, 'says', 'say')} something else (${count(hidden)} withheld now and published before, ${count(shown)} the other way round)`,
    `${many(disappeared, 'is', 'are')} no longer there`,
  ];
  return `${list(parts, { comma: '; ' })}.`;
}
