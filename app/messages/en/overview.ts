import { type Pair, periodLabel } from '@/lib/vocabulary/terms';
import type { ChangedVerdict, Verdict } from '../../view/changed-verdicts';
import type { Overview } from '../../view/overview';
import { sentence, sentenceStart } from '../format';
import { count, list, many } from './format';
import { weedName } from './names';
import { byWeed } from './sentences';

/** The front page, before its map. */
export const overviewPage = {
  heading: (region: string) => `Herbicide resistance in ${region}`,
  fresh: 'What is new',
  nothing: 'Nothing that is new can be told from the public numbers.',
  more: (left: number) => `${left} more`,
  release: (number: number, date: string) => `Release ${number} of ${date}`,
  map: 'One weed and one herbicide group',
};

/** The region in three sentences: what was screened, where resistance is confirmed, what moves. */
export function regionSentences(told: Overview): string[] {
  const { since, weeds, groups, results, counties } = told;
  const so = `${results.complete ? '' : 'more than '}${count(results.count)} results`;
  return [
    `Since ${since} seed from ${count(counties.screened)} of ${many(counties.all, 'county', 'counties')} has been screened, ${many(weeds, 'weed', 'weeds')} against ${many(groups, 'herbicide group', 'herbicide groups')}: ${so}, each of one population against one group.`,
    confirmedSentence(told),
    movingSentence(told),
  ];
}

function confirmedSentence({ window, confirmed, clean, widest }: Overview): string {
  const found =
    confirmed.length > 0
      ? `In ${periodLabel(window)} resistance was confirmed in ${list(weedsOf(confirmed), { comma: ', ' })}`
      : `In ${periodLabel(window)} no resistance is shown as confirmed`;
  const most = widest
    ? `; most widely ${pairName(widest)}, in ${count(widest.confirmed)} of ${many(widest.places, 'county or area', 'counties and areas')} with public numbers`
    : '';
  const none =
    clean.length > 0
      ? ` None was found in ${list(byWeed(clean), { comma: '; ' })}, which is not none there.`
      : '';
  return `${found}${most}.${none}`;
}

function movingSentence({ speeds, clusters, rising }: Overview): string {
  const parts = [
    ...speeds.map(
      ({ species, group, speed, low, high }) =>
        `${pairName({ species, group })} has moved outwards by about ${round(speed)} km a season (95 % interval ${round(low)} to ${round(high)} km)`,
    ),
    ...(clusters.length > 0
      ? [
          `resistant populations lie together more than by chance in ${list(byWeed(clusters), { comma: '; ' })}`,
        ]
      : []),
    ...(rising.length > 0
      ? [`place by place, the share has risen in ${list(byWeed(rising), { comma: '; ' })}`]
      : []),
  ];
  return parts.length > 0
    ? sentence(parts.join('; '))
    : 'The public numbers show nothing that moves, lies together or rises.';
}

/** Places where a pair was found new after a clean record. */
export function arrivedWords(pair: Pair, places: readonly string[]): string {
  return `${sentenceStart(pairName(pair))}: new after a clean record in ${list(places, { limit: 4 })}.`;
}

export function verdictWords({ finding, was, is }: ChangedVerdict, release: number): string {
  const when = finding.kind === 'clustering' ? `, ${periodLabel(finding.period)}` : '';
  const what = { clustering: 'in space', trend: 'over the seasons', speed: 'speed' }[finding.kind];
  return `${sentenceStart(pairName(finding))}${when}, ${what}: ${VERDICTS[is]}; in release ${release} ${VERDICTS[was]}.`;
}

const VERDICTS: Record<Verdict, string> = {
  'lie together': 'resistant populations lie together',
  'no sign': 'no sign that they lie together',
  'too little tested': 'too little screened to say',
  rise: 'a rise',
  fall: 'a fall',
  'no clear change': 'no clear change',
  told: 'it can be told',
  'not told': 'it could not be told',
};

function weedsOf(pairs: readonly Pair[]): string[] {
  return [...new Set(pairs.map(({ species }) => weedName(species)))];
}

function pairName({ species, group }: Pair): string {
  return `${weedName(species)}, group ${group}`;
}

function round(value: number | null): string {
  return count(Math.round(value!));
}
