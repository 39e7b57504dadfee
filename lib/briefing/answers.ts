import type { PlaceToLookAt } from '@/lib/findings/spread/look-next/types';
import type { FirstDetection } from '@/lib/findings/types';
import { list, number, populations } from '@/lib/findings/wording';
import type { Region } from '@/lib/geography/types';
import { reassurance } from '@/lib/stats/reassurance';
import { commonNameOf } from '@/lib/vocabulary/species';
import { type Fips, periodLabel } from '@/lib/vocabulary/terms';
import { clusteringOf, intervalWords, named, sharePercent } from './headlines';
import type { BriefingNumbers, Effort, GroupNumbers, GroupStanding } from './types';

/** The questions that boards ask, in the order in which they ask them. */
export const QUESTIONS = {
  where: 'Is it in my county?',
  samples: 'How many samples?',
  worse: 'Is this worse than last year, or just more samples?',
  works: 'What still works?',
  pays: 'Who pays next year?',
  next: 'Where to look next',
  methods: 'How the numbers are made',
  cautions: 'Before you act on this',
} as const;

/** Beside every share: where the samples come from. */
export const DENOMINATOR =
  'Most samples come from fields where control had failed, so a share is not the share of all fields.';

/** `Ness County, KS` by FIPS code. */
export function countyNames({ counties }: Pick<Region, 'counties'>): Map<Fips, string> {
  return new Map(counties.map(({ fips, fullName, state }) => [fips, `${fullName}, ${state}`]));
}

/** First finds of the window, told apart by what they are evidence of. */
export function newFinds(
  { window, region, source }: BriefingNumbers,
  { group, findings }: GroupNumbers,
): string[] {
  const names = new Map(
    region.counties.map((county) => [county.fips, `${county.fullName}, ${county.state}`]),
  );
  for (const { code, name } of region.districts) names.set(code, name);
  const own = findings.filter(
    (one): one is FirstDetection =>
      one.kind === 'first detection' &&
      (one.placeKind === 'district' || one.placeKind === 'county') &&
      one.period.first >= window.first &&
      one.period.last <= window.last &&
      names.has(one.place),
  );
  const of = (how: FirstDetection['how'], kind: FirstDetection['placeKind']) =>
    own
      .filter((one) => one.how === how && one.placeKind === kind)
      .map(({ place, period }) => `${names.get(place)} (${periodLabel(period)})`);
  const told = (words: string, how: FirstDetection['how']) =>
    // Where every county is known, districts add nothing.
    KINDS[source.kind].flatMap((kind) => {
      const places = of(how, kind);
      return places.length === 0
        ? []
        : [`Group ${group}, ${kind === 'county' ? 'counties' : 'districts'} ${words}: ${named(places, 4)}.`];
    });
  return [
    ...told('found new after a clean record', 'new after a clean record'),
    ...told('where it was found at the first test, which says when testing began', 'found at first test'),
  ];
}

const KINDS = { release: ['county', 'district'], private: ['county'] } as const;

/** What lies together on the map, in the words of the finding without its counts, which stand elsewhere. */
export function togetherWords(numbers: BriefingNumbers, group: GroupNumbers): string | null {
  const found = clusteringOf(group, numbers);
  if (!found) return null;
  if (found.verdict === 'too little tested')
    return `Group ${group.group}: too little was tested to say whether resistant populations lie together.`;
  const p = found.p! < 0.001 ? 'p < 0.001' : `p = ${found.p!.toPrecision(2)}`;
  return found.verdict === 'lie together'
    ? `Group ${group.group}: resistant populations lie together more than chance would bring, allowing for how many were screened where (${p}).`
    : `Group ${group.group}: no sign that resistant populations lie together (${p}); a small or weak cluster may be there unseen.`;
}

/** From how many counties the samples came. */
export function countiesWords({ effort, species, window }: BriefingNumbers): string {
  const { screened, of } = effort.counties;
  return `${sentenceStart(commonNameOf(species))} was screened from ${number(screened)} of ${number(of)} counties in ${periodLabel(window)}, in any group; from the other ${number(of - screened)} nothing was, and nothing is known of them.`;
}

/** What a group of the same weed did in the greenhouse. */
export function standingWords({ status, counted }: Pick<GroupStanding, 'status' | 'counted'>): string {
  if (status === 'not screened') return 'not screened in these seasons';
  if (!counted) return status === 'confirmed' ? 'resistance confirmed, numbers not public' : 'not public';
  if (counted.resistant > 0) return `${number(counted.resistant)} of ${number(counted.tested)} resistant`;
  return `none of ${number(counted.tested)} resistant, which still allows up to ${sharePercent(reassurance(0, counted.tested)!.upper)}`;
}

/** Before what the money bought. */
export const NO_COUNT_SAYS =
  'No count can say who should pay. What the screening gave, and what it left open:';

/** Below the trends. */
export const TREND_READING =
  'Dots are the share of screened populations that were resistant, bars the 95 % interval; the number screened stands below each season. Where that number rises, a rise may be a rise in what is sent. The odds at the head of this briefing compare each place with itself: that takes out from where samples came, not which fields were sampled.';

/** Beside what still works. */
export const NO_ADVICE =
  'Only the actives that were tested are spoken for, and none of this recommends one: follow the label and your local extension recommendations.';

/** Beside a public map. */
export const COUNTY_PAGES =
  'Each county has a page of its own on the programme’s site, with a one-page handout.';

/** Groups with the smallest shares first; what is not public last. */
export function byShare(standings: readonly GroupStanding[]): GroupStanding[] {
  const rank = ({ counted }: GroupStanding) => counted?.share ?? 2;
  return [...standings].sort((a, b) => rank(a) - rank(b) || a.group - b.group);
}

/** How likely a first find is in a county, with the interval of the fit. */
export function chanceWords({ chance, low, high }: Pick<PlaceToLookAt, 'chance' | 'low' | 'high'>): string {
  if (chance === null) return 'not told';
  if (low! > 0.99) return 'more than 99 %';
  return `${sharePercent(chance)} (${intervalWords({ low: low!, high: high! })})`;
}

/** What the board's money bought, as far as it may be told. */
export function effortWords({ effort, source, groups, window, species }: BriefingNumbers): string[] {
  const lines = [
    // Where samples are told by crop, they are told: their sum stands under “How many samples?”.
    ...(effort.byCrop || effort.bySource
      ? []
      : receiptLine(groups, periodLabel(window), commonNameOf(species))),
    ...cropLines(effort, periodLabel(window)),
    ...daysLine(effort),
  ];
  if (source.kind === 'release')
    lines.push(
      'A release tells nothing by funder or of days to a result, because such counts could tell on a sender; the programme’s staff can show them to a board.',
    );
  return lines;
}

function receiptLine(groups: readonly GroupNumbers[], when: string, weed: string): string[] {
  return groups.flatMap(({ group, receipt, whole }) => {
    if (!receipt || !whole.counted) return [];
    const { received, testable } = receipt;
    return [
      `${when}, group ${group}: ${populations(received)} of ${weed} received, ${number(testable)} with viable seed, ${number(whole.counted.tested)} with a result.`,
    ];
  });
}

/** Where a state and season of a crop is withheld, the rest is a least number; where all of them are, nothing is told of it. */
function cropLines({ byCrop }: Effort, when: string): string[] {
  return (byCrop ?? []).flatMap(({ group, crops }) => {
    if (crops.length === 0) return [];
    const told = crops.map(({ crop, tested, resistant, isLeast }) => {
      if (isLeast && tested === 0) return `${crop} withheld`;
      return `${crop} ${isLeast ? 'at least ' : ''}${number(tested)} (${number(resistant)} resistant)`;
    });
    const least = crops.some(({ isLeast, tested }) => isLeast && tested > 0)
      ? ' Where it says “at least”, states and seasons with few samples are withheld.'
      : '';
    return [`${when}, group ${group}, screened by crop: ${named(told, 8)}.${least}`];
  });
}

function daysLine({ days }: Effort): string[] {
  if (!days) return [];
  const { samples, median, low, high } = days;
  return [
    `From receipt to the day on which the sender was told: ${number(median)} days in the middle of ${number(samples)} samples (half of them ${number(low)} to ${number(high)}).`,
  ];
}

/** `A; B` as a sentence's beginning. */
export function sentenceStart(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Crops, funders and districts that were chosen, for the line under the title. */
export function choiceWords({ crop, funder, isPart, wholeName }: BriefingNumbers): string {
  return list([
    ...(isPart ? [wholeName] : []),
    ...(crop === null ? [] : [`crop: ${crop}`]),
    ...(funder === null ? [] : [`funder: ${funder}`]),
  ]);
}
