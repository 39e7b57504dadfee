import type { Clustering, Finding, MatchedChange, SpeedOfSpread, Trend } from '@/lib/findings/types';
import { list, number, percent, ratio } from '@/lib/findings/wording';
import { groupName } from '@/lib/vocabulary/groups';
import { commonNameOf } from '@/lib/vocabulary/species';
import { type PlaceStatus, periodLabel } from '@/lib/vocabulary/terms';
import { isEdited } from './edit-sentences';
import type { Briefing, BriefingNumbers, Counted, GroupNumbers, Sentence } from './types';

/**
 * The sentences that head a briefing, each made from its numbers with their uncertainty, each with the key by which it can be
 * edited: for each group what was found (`found-27`), where (`where-27`), the change since the season before
 * (`change-27`), the trend (`trend-27`) and the speed (`speed-27`); the last three only where they can be told.
 */
export function headlines(numbers: BriefingNumbers): Sentence[] {
  return numbers.groups.flatMap((group) =>
    [
      { key: `found-${group.group}`, words: foundWords(numbers, group) },
      { key: `where-${group.group}`, words: whereWords(numbers, group) },
      { key: `change-${group.group}`, words: changeWords(numbers, findingOf(group, 'matched change')) },
      { key: `trend-${group.group}`, words: trendWords(numbers, findingOf(group, 'trend')) },
      { key: `speed-${group.group}`, words: speedWords(numbers, findingOf(group, 'speed')) },
    ].flatMap(({ key, words }) => (words === null ? [] : [{ key, computed: words, printed: words }])),
  );
}

/** Where a person’s words stand in place of computed ones, so that a reader of the document knows. */
export function editedNote({ headlines: all }: Pick<Briefing, 'headlines'>): string | null {
  const edited = all.filter(isEdited);
  if (edited.length === 0) return null;
  const were = edited.map(({ computed }) => `“${computed}”`).join(' ');
  return `${edited.length === 1 ? 'One headline was' : `${edited.length} headlines were`} worded by a person (marked †). Computed from the numbers: ${were}`;
}

/** The one finding of a kind that a pair has. */
export function findingOf<Kind extends 'matched change' | 'trend' | 'speed'>(
  { findings }: GroupNumbers,
  kind: Kind,
): Extract<Finding, { kind: Kind }> | null {
  return findings.find((one): one is Extract<Finding, { kind: Kind }> => one.kind === kind) ?? null;
}

/** What the map of the window says of resistant populations lying together, by the grain of the map. */
export function clusteringOf({ findings }: GroupNumbers, { window }: BriefingNumbers): Clustering | null {
  const own = findings.filter(
    (one): one is Clustering =>
      one.kind === 'clustering' && one.period.first === window.first && one.period.last === window.last,
  );
  return own.find(({ grain }) => grain === 'area') ?? own[0] ?? null;
}

/** `40 % (95 % interval 36 to 44 %)`. */
export function shareWords(counted: Counted): string {
  return `${sharePercent(counted.share)} (95 % interval ${intervalWords(counted)})`;
}

/** `36 to 44 %`; a bound below 1 is not called 100. */
export function intervalWords({ low, high }: Pick<Counted, 'low' | 'high'>): string {
  const bound = (value: number) =>
    value > 0.995 && value < 1 ? '>99' : value > 0 && value < 0.005 ? '<1' : String(Math.round(100 * value));
  return `${bound(low)} to ${bound(high)} %`;
}

/** Never none or all where there is something, or not all. */
export function sharePercent(share: number): string {
  if (share > 0 && share < 0.01) return '<1 %';
  return share > 0.99 && share < 1 ? '>99 %' : percent(share);
}

function foundWords(
  { species, window, wholeName, crop, funder }: BriefingNumbers,
  { group, whole }: GroupNumbers,
) {
  const weed = commonNameOf(species);
  const when = `in ${periodLabel(window)}`;
  const from = [
    wholeName,
    ...(crop === null ? [] : [`fields of ${crop}`]),
    ...(funder === null ? [] : [`samples paid for by the ${funder}`]),
  ].join(', ');
  const herbicides = groupName(group);
  if (whole.status === 'not screened')
    return `No ${weed} from ${from} was screened against ${herbicides} ${when}.`;
  if (!whole.counted)
    return `What was found in ${weed} from ${from} and ${herbicides} ${when} is not public.`;
  const { resistant, tested, high } = whole.counted;
  if (resistant === 0)
    return `No resistance to ${herbicides} was found in ${number(tested)} ${weed} populations screened from ${from} ${when}; that still allows up to ${sharePercent(high)} of populations like these.`;
  return `${number(resistant)} of ${number(tested)} ${weed} populations screened from ${from} ${when} were resistant to ${herbicides}: ${shareWords(whole.counted)}.`;
}

function whereWords({ source }: BriefingNumbers, { group, places }: GroupNumbers): string {
  const many = (status: PlaceStatus) => places.filter((place) => place.status === status).length;
  const kinds = source.kind === 'release' ? 'counties and areas' : 'counties';
  const hidden = many('no public information');
  const parts = [
    `none confirmed in ${number(many('none confirmed'))}`,
    ...(hidden > 0 ? [`not public in ${number(hidden)}`] : []),
    `not screened in ${number(many('not screened'))}`,
  ];
  return `Group ${group}: confirmed in ${number(many('confirmed'))} of ${number(places.length)} ${kinds}, ${parts.join(', ')}.`;
}

function changeWords(numbers: BriefingNumbers, change: MatchedChange | null): string | null {
  if (!change || change.oddsRatio === null) return null;
  const { group, from, to, grain, places, oddsRatio, low, high } = change;
  const kind = grain === 'county' ? 'counties' : `${grain}s`;
  return `Group ${group}${ofAll(numbers)}, ${to} against ${from}: odds of resistance × ${ratio(oddsRatio)} (95 % interval ${ratio(low!)} to ${ratio(high!)}) in the ${places} ${kind} screened in both; ${verdict(low!, high!)}.`;
}

function trendWords(numbers: BriefingNumbers, trend: Trend | null): string | null {
  if (!trend || trend.oddsRatio === null || trend.from === null) return null;
  const { group, from, to, grain, oddsRatio, low, high } = trend;
  return `Group ${group}${ofAll(numbers)}, ${from} to ${to}: odds × ${ratio(oddsRatio)} a season (95 % interval ${ratio(low!)} to ${ratio(high!)}), each ${grain} against itself; ${verdict(low!, high!)}.`;
}

/** Findings are of all samples of the region, whatever part of them was chosen. */
export function ofAll({ isPart, crop, funder }: BriefingNumbers): string {
  return isPart || crop !== null || funder !== null ? ', all samples of the region' : '';
}

/** Of an odds ratio by its interval. */
function verdict(low: number, high: number): string {
  return low > 1 ? 'a rise' : high < 1 ? 'a fall' : 'no clear change';
}

function speedWords(numbers: BriefingNumbers, speed: SpeedOfSpread | null): string | null {
  if (!speed || speed.speed === null) return null;
  const { group, low, high } = speed;
  const rounded = (value: number) => number(Math.round(value));
  return `Group ${group}${ofAll(numbers)}: the front has moved outwards by about ${rounded(speed.speed)} km a season (95 % interval ${rounded(low!)} to ${rounded(high!)} km).`;
}

/** `A, B and C`. */
export function named(items: readonly string[], most = 6): string {
  return list(items, most).replaceAll('; ', ', ');
}
