import type { ClusteringVerdict } from '@/lib/findings/types';
import { type Group, type PlaceStatus, periodLabel } from '@/lib/vocabulary/terms';
import type { WeedNoteKind } from '@/lib/vocabulary/weed-notes';
import type { MultipleRow } from '../../view/multiple-rows';
import type { WeedGroup, WeedReport } from '../../view/weed-report';
import { sentence, sentenceStart } from '../format';
import { count, interval, list, many, percent } from './format';
import { weedName } from './names';
import { texts } from './texts';

const groupsWords = (groups: readonly Group[]) =>
  `${groups.length === 1 ? 'group' : 'groups'} ${list(groups.map(String), { comma: ', ', limit: 30 })}`;

/** What the pages of weeds say. */
export const weed = {
  all: (region: string) => `Weeds of ${region}`,
  allReading: (period: string) =>
    `What was still controlled in the greenhouse and what was not, seed collected ${period}, the whole region. A weed’s name leads to its districts.`,
  title: (species: string, region: string) => `${sentenceStart(species)} in ${region}`,
  unknown: (asked: string) => `There is no weed “${asked}” here`,
  there: 'These weeds were screened. Their EPPO codes, common and scientific names work as addresses.',
  windows: 'Seed collected',
  nothing: (species: string) =>
    `No ${species} stands in this release: none was screened, or none of it may be counted in public. That is no information, which is not the same as none found.`,
  groups: {
    heading: (period: string) => `Group by group in the whole region, ${period}`,
    tested: (actives: readonly string[]) => `Screened with ${list(actives, { comma: ', ' })}.`,
    active: 'Only the actives named were tested; another one of the group may do otherwise.',
    trend: 'Season by season and crop by crop',
  },
  districts: {
    heading: (period: string) => `District by district, ${period}`,
    states: (period: string) => `State by state, ${period}`,
    caption: (species: string, period: string, where?: string) =>
      `${sentenceStart(species)}: resistant of screened populations, their share and its 95 % interval, ${where ? `${where}, ` : ''}${period}`,
    place: 'Place',
    reading:
      'Each strip runs from none (left) to all (right). The mark is the share of screened populations that were resistant, the bar its 95 % interval: a long bar means that few were screened.',
  },
  looks: {
    confirmed: 'Resistance found.',
    'none confirmed': 'Screened, none found. The dotted bar reaches as far as that still allows.',
    'no public information':
      'Withheld: something was screened, and too few stand behind it to show it. It looks the same whatever was found.',
    'not screened': 'Not screened: no samples, so nothing is known.',
  } as Record<PlaceStatus, string>,
  cell: {
    withheld: 'withheld',
    'not screened': 'not screened',
    counts: (resistant: string, tested: string) => `${resistant} of ${tested}`,
  },
  never: {
    heading: 'Tolerance is not resistance',
    words: (species: string, groups: readonly Group[]) =>
      `${sentenceStart(groupsWords(groups))} never controlled ${species}: that it survives there is its nature (tolerance). It is not screened, and is no case.`,
  },
  multiple: {
    heading: (period: string) => `Several groups at once, ${period}`,
    name: 'Resistant to how many groups',
    reading:
      'Only populations that were screened against two groups or more, and only results that stand in published numbers. Whoever is screened against few groups can show few: this is what was seen, not all that is there. A population can hold plants of several kinds, so two groups in a population need not be two in a plant.',
    caption: 'Populations screened against two groups or more, by how many of these they were resistant to',
    tested: 'Screened',
    none: 'none',
    one: 'one group',
    several: 'two or more',
    row: multipleWords,
  },
  actives: {
    heading: (period: string) => `Active by active, ${period}`,
    reading:
      'Actives of one group need not agree: a population counts as resistant to the group when it is resistant to any of them. One that was tested on two actives counts under both.',
    summary: (group: Group, actives: readonly string[]) =>
      `Group ${group}: ${list(actives, { comma: ', ' })}, by district`,
    notNamed: 'active not named',
    caption: (group: Group, period: string) => `Group ${group} by active and district, ${period}`,
  },
  about: {
    heading: 'Is it this weed?',
    kinds: {
      tell: 'How to tell it',
      alike: 'Taken for it',
      sexes: 'Which plants bear seed',
      emergence: 'When it comes up',
    } as Record<WeedNoteKind, string>,
    none: 'Nobody has written notes on this weed yet.',
    dioecious: 'Male and female plants are separate, and only female plants bear seed.',
    memory: 'From memory of the trade, no source; ask a botanist.',
    after: 'After:',
    rest: 'the rest from memory',
    others: 'Also called',
    sample: 'If in doubt, send the whole plant along: a wrong name makes a wrong result.',
  },
  findings: {
    heading: (period: string) => `Where it lies, how it moves, ${period}`,
    none: 'No finding for this weed in these seasons.',
    quiet: (verdict: ClusteringVerdict, groups: readonly Group[]) =>
      verdict === 'no sign'
        ? sentence(`No sign that resistant populations lie together: ${groupsWords(groups)}`)
        : sentence(`Too little screened to say whether they lie together: ${groupsWords(groups)}`),
    noSpeed: (groups: readonly Group[]) => sentence(`No speed can be told: ${groupsWords(groups)}`),
    map: (group: Group) => `Group ${group} on the map`,
  },
  headline,
  groupWords,
  looksWords,
};

/** What a row of multiple resistance says. */
function multipleWords({ counts, several }: MultipleRow): string {
  if (!counts || !several) return sentence(texts.withheld);
  return `Of ${count(counts.tested)} populations screened against two groups or more, ${count(counts.several)} were resistant to two or more: ${percent(several.share)} (95\u00a0% interval ${interval(several)}); ${count(counts.one)} to one, ${count(counts.none)} to none.`;
}

/** The weed in two or three sentences: found, not found, not shown. */
function headline({
  species,
  groups,
  window,
  region,
}: Pick<WeedReport, 'species' | 'groups' | 'window' | 'region'>): string[] {
  const of = (status: PlaceStatus) => groups.filter(({ numbers }) => numbers.status === status);
  const [found, clean, hidden] = [of('confirmed'), of('none confirmed'), of('no public information')];
  const sentences: string[] = [];
  if (found.length > 0) {
    const told = found.map(({ group, numbers: { estimate } }) =>
      estimate ? `${group} (${percent(estimate.share)} of ${count(estimate.tested)})` : String(group),
    );
    sentences.push(
      `Among ${weedName(species)} populations screened from ${region.name}, ${periodLabel(window)}, some were resistant to ${found.length === 1 ? 'group' : 'groups'} ${list(told, { comma: ', ' })}.`,
    );
  }
  if (clean.length > 0) {
    const told = clean.map(({ group, upper, numbers: { estimate } }) =>
      estimate && upper !== null
        ? `group ${group} (${count(estimate.tested)} screened, which still allows up to ${percent(upper)})`
        : `group ${group}`,
    );
    sentences.push(`No resistance was found to ${list(told)}.`);
  }
  if (hidden.length > 0)
    sentences.push(sentence(`Not public: ${groupsWords(hidden.map(({ group }) => group))}`));
  if (found.length + clean.length + hidden.length === 0)
    sentences.push(`None was screened from ${region.name}, ${periodLabel(window)}.`);
  return sentences;
}

/** The numbers of a group in the region, in words. */
function groupWords({ numbers: { estimate, status }, upper }: WeedGroup): string {
  if (!estimate || estimate.tested === 0) return sentence(texts.status[status]);
  const { tested, resistant, share } = estimate;
  if (upper !== null)
    return `None of ${count(tested)} screened was resistant; that still allows up to ${percent(upper)} of populations like these.`;
  return `${count(resistant)} of ${count(tested)} screened: ${percent(share)} (${interval(estimate)}).`;
}

/** Where it has which look: `Found in 18 of 36 districts; none found in 6; withheld in 5; not screened in 7.` */
function looksWords({ looks }: WeedGroup, of: 'district' | 'state'): string {
  const total = Object.values(looks).reduce((sum, value) => sum + value, 0);
  return sentence(
    [
      `found in ${count(looks.confirmed)} of ${many(total, of, `${of}s`)}`,
      `none found in ${count(looks['none confirmed'])}`,
      `withheld in ${count(looks['no public information'])}`,
      `not screened in ${count(looks['not screened'])}`,
    ].join('; '),
  );
}
