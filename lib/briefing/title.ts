import { list } from '@/lib/findings/wording';
import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import { choiceWords, sentenceStart } from './answers';
import { STAMP } from './figures';
import type { BriefingNumbers, Source } from './types';

/** On each page and slide of a private briefing. */
export const NOT_FOR_DISTRIBUTION = 'Not for distribution';

/** `Kochia and herbicide groups 9 and 27, 2022–2024`. */
export function titleOf({ species, groups, window }: BriefingNumbers): string {
  const told = list(groups.map(({ group }) => String(group))).replaceAll('; ', ', ');
  const kinds = groups.length === 1 ? 'herbicide group' : 'herbicide groups';
  return `${sentenceStart(commonNameOf(species))} and ${kinds} ${told}, ${periodLabel(window)}`;
}

/** From what, of when, and what was chosen. */
export function sourceWords(numbers: BriefingNumbers): string {
  const { source, regionName } = numbers;
  const from =
    source.kind === 'release'
      ? `Release ${source.number} of ${source.date}`
      : `Exact counts as of ${source.date}${source.analysis === null ? '' : `, analysis ${source.analysis}`}`;
  const choice = choiceWords(numbers);
  return [regionName, from, ...(choice === '' ? [] : [choice])].join(' · ');
}

/** What stands on each page. */
export function marksOf({ source, simulated }: BriefingNumbers): string[] {
  return [...(source.kind === 'private' ? [NOT_FOR_DISTRIBUTION] : []), ...(simulated ? [STAMP] : [])];
}

/** What a private briefing is. */
export function privateWords({ held }: Extract<Source, { kind: 'private' }>): string {
  const waiting =
    held === 0
      ? ''
      : ` ${held === 1 ? 'One result' : `${held} results`} whose first find in the state awaits its second run ${held === 1 ? 'is' : 'are'} left out.`;
  return `${NOT_FOR_DISTRIBUTION}: exact counts, also of places where few sent samples.${waiting}`;
}

/** How the numbers were made, in short. */
export function methodsWords({
  caseDefinition,
  source,
  isPart,
  crop,
  funder,
  regionName,
}: BriefingNumbers): string {
  const finding =
    isPart || crop !== null || funder !== null
      ? ` Changes, trends and speeds are of all samples of ${regionName}.`
      : '';
  const shown =
    source.kind === 'release'
      ? 'Small counts are withheld and counties joined into areas to protect growers; every number is from the release and can be computed again from its files.'
      : 'These are exact counts.';
  return `${caseDefinition.words.replace(/\.$/, '')} (case definition ${caseDefinition.version}). A population is one weed from one field in one season, tested as whole plants in the greenhouse; it counts once for a group, and is resistant to it when it is resistant to any tested active of it. All ways of choosing fields count together. Shares carry a 95 % Wilson interval. ${shown}${finding}`;
}
