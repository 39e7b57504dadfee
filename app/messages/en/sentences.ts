import type { TrendPoint } from '@/lib/figures/trend-figure';
import type { Clustering, FirstDetection, MatchedChange, SpeedOfSpread, Trend } from '@/lib/findings/types';
import { SUBMISSIONS_CAUTION } from '@/lib/findings/wording';
import type { Region } from '@/lib/geography/types';
import { type Pair, type Period, type PlaceStatus, periodLabel } from '@/lib/vocabulary/terms';
import type { Misfit } from '../../view/parse-view';
import type { Estimate, PlaceNumbers } from '../../view/place-numbers';
import type { CountyLine, CountyReport } from '../../view/read-county';
import type { Grain, View } from '../../view/view';
import { sentence, sentenceStart } from '../format';
import { count, interval, list, many, percent } from './format';
import { weedName } from './names';
import { texts } from './texts';

/** `in 2022–2024`, or `over all closed seasons`. */
export function when(window: View['window']): string {
  return window === 'all' ? 'over all closed seasons' : `in ${periodLabel(window)}`;
}

/** `12 of 20 screened populations were resistant: 60 % (95 % interval 39–78 %)`. */
export function estimateWords(estimate: Estimate): string {
  const { tested, resistant, share } = estimate;
  if (tested === 0) return 'None were screened.';
  const whose = `${count(resistant)} of ${count(tested)} screened populations ${resistant === 1 ? 'was' : 'were'} resistant`;
  return `${whose}: ${percent(share)} (95 % interval ${interval(estimate)}).`;
}

/** What a map title or card says of a place after its name. */
export function placeWords({ status, estimate }: PlaceNumbers): string {
  const look = sentence(texts.status[status]);
  return estimate ? `${look} ${estimateWords(estimate)}` : look;
}

/** First sentence of the page: the region in the chosen seasons. */
export function headline(
  weed: string,
  herbicides: string,
  region: PlaceNumbers,
  window: View['window'],
): string {
  const { estimate, status, place } = region;
  if (estimate && estimate.tested > 0) {
    const { resistant, tested } = estimate;
    return resistant === 0
      ? `No resistance to ${herbicides} was found in ${count(tested)} ${weed} populations screened in ${place.name} ${when(window)}`
      : `${count(resistant)} of ${count(tested)} ${weed} populations screened in ${place.name} ${when(window)} were resistant to ${herbicides}`;
  }
  if (status === 'confirmed') return `Resistance to ${herbicides} is confirmed in ${weed} from ${place.name}`;
  if (status === 'none confirmed') {
    return `${sentenceStart(weed)} from ${place.name} has been screened against ${herbicides}, and no resistance was confirmed`;
  }
  if (status === 'not screened') {
    return `No ${weed} from ${place.name} was screened against ${herbicides} ${when(window)}`;
  }
  return `Nothing can be shown for ${weed} from ${place.name} and ${herbicides} ${when(window)}`;
}

/** What follows the headline: how sure, and in how many places. */
export function summary(region: PlaceNumbers, places: readonly PlaceNumbers[], by: Grain): string[] {
  const sentences: string[] = [];
  const { estimate } = region;
  if (estimate && estimate.resistant > 0) {
    sentences.push(
      `That is ${percent(estimate.share)} of what was screened (95 % interval ${interval(estimate)}). Most samples are sent because control had failed, so it is not the share of all fields.`,
    );
  } else if (estimate && estimate.tested > 0) {
    sentences.push(
      `Finding none in that many still allows a share of up to ${percent(estimate.high)} in samples like these.`,
    );
  }
  sentences.push(placeSummary(places, by));
  return sentences;
}

/** Where the map has which look, in one sentence; also its description for those who do not see it. */
export function placeSummary(places: readonly PlaceNumbers[], by: Grain): string {
  const number = (status: PlaceStatus) => places.filter((place) => place.status === status).length;
  const [one, several] =
    by === 'county' ? ['county or area', 'counties and areas'] : [by as string, `${by}s`];
  const parts = [
    `confirmed in ${many(number('confirmed'), one, several)}`,
    `screened with none confirmed in ${count(number('none confirmed'))}`,
    `without public information in ${count(number('no public information'))}`,
    `not screened in ${count(number('not screened'))}`,
  ];
  return sentence(`Of ${many(places.length, one, several)}: ${list(parts, { comma: ', ' })}`);
}

/** Title of the map. */
export function mapTitle(weed: string, herbicides: string, by: Grain, window: View['window']): string {
  return `Map by ${by}: ${weed} resistant to ${herbicides}, ${when(window)}`;
}

/** Why the numbers of a county are those of several. */
export function countedTogether(county: string, area: string): string {
  // Not that too little was screened in this one: it may have been joined for the sake of a neighbour.
  return `Too little was screened around here to show each county alone, so ${county} is counted together with its neighbours: ${area}.`;
}

/** Why a place shows no numbers, in general terms, and what is available instead. */
export function absence({ place, status }: PlaceNumbers, window: View['window']): string | null {
  if (window === 'all') {
    if (status === 'not screened')
      return `Nothing was screened from ${place.name}: there is no information, which is not the same as none found.`;
    if (status !== 'no public information') return null;
    return `What was found in ${place.name} is not public: too few samples, or too few senders, stand behind it to show it without telling on somebody. Places around it are shown instead.`;
  }
  if (status === 'not screened') {
    return `Nothing was screened from ${place.name} ${when(window)}: there is no information, which is not the same as none found.`;
  }
  if (status !== 'no public information') return null;
  return `The numbers of ${place.name} ${when(window)} are not public. That is so where few samples or few senders stand behind a number, where one sender gave most of them, or where a neighbouring number could be worked out from it. It says nothing about what was found. The places that hold it are shown instead.`;
}

/** Where an address could not be followed. */
export function misfitWords({ parameter, asked, several }: Misfit): string {
  const given = asked.length > 24 ? `${asked.slice(0, 24)}…` : asked;
  const what: Record<Misfit['parameter'], string> = {
    species: 'weed',
    group: 'herbicide group for this weed',
    window: 'run of seasons',
    by: 'kind of map',
    layer: 'layer of the map',
    place: 'place',
    find: 'county by the name',
  };
  if (several) return `Several counties go by “${given}”: ${list(several, { comma: ', ', limit: 8 })}.`;
  return `This release has no ${what[parameter]} “${given}”, so another one is shown.`;
}

/** What a trend says to those who do not see it. */
export function trendWords(points: readonly TrendPoint[]): string {
  const shown = points.filter((point) => !point.withheld && point.tested > 0);
  const withheld = points.filter((point) => point.withheld).length;
  const ends = shown.length > 1 ? [shown[0]!, shown.at(-1)!] : shown;
  const said = ends.map((point) => `${point.season}: ${pointWords(point)}`);
  if (shown.length === 0) said.push('No season has public numbers.');
  if (withheld > 0) said.push(`${many(withheld, 'season is', 'seasons are')} withheld.`);
  return said.join(' ');
}

/** The numbers of one season. */
export function pointWords(point: TrendPoint): string {
  const share = point.tested > 0 ? point.resistant / point.tested : 0;
  const words = estimateWords({ ...point, share });
  return point.unfinished ? `${words} ${sentence(texts.trend.unfinished)}` : words;
}

/** First detections of a period, told apart by what they are evidence of. */
export function detectionWords(
  detections: readonly FirstDetection[],
  nameOf: (detection: FirstDetection) => string,
  period: Period,
): string[] {
  const names = (how: FirstDetection['how']) => detections.filter((found) => found.how === how).map(nameOf);
  const arrived = names('new after a clean record');
  const atOnce = names('found at first test');
  const unsure = names('earlier record not shown');
  const sentences: string[] = [];
  if (arrived.length > 0) {
    sentences.push(`New after a clean record in ${periodLabel(period)}: ${list(arrived)}.`);
  }
  if (atOnce.length > 0) {
    sentences.push(
      `Found the first time it was looked for, in ${periodLabel(period)}: ${list(atOnce)}. That says when screening began there, not when resistance did.`,
    );
  }
  if (unsure.length > 0) {
    sentences.push(
      `First shown in ${periodLabel(period)}, with an earlier count that is not shown, so that nobody can say from here whether it is new: ${list(unsure)}.`,
    );
  }
  return sentences;
}

/** First sentence of a county's page: how many weeds have what; which ones stands below it. */
export function countyHeadline({ lines, window, county }: CountyReport): string {
  const when = periodLabel(window);
  if (lines.length === 0)
    return `Nothing from ${county.name} is in the numbers of ${when}: nobody can say from here what is there.`;
  const weeds = (wanted: readonly CountyLine[]) => new Set(wanted.map(({ pair }) => pair.species)).size;
  const confirmed = lines.filter(({ numbers }) => numbers.status === 'confirmed');
  const shown = lines.filter(({ numbers }) => numbers.status !== 'no public information');
  if (shown.length === 0)
    return `Seed from ${county.name} was screened in ${when}, and what was found cannot be shown.`;
  const where = `${county.name}, or in the area that it is counted in`;
  return confirmed.length === 0
    ? `No resistance is shown as confirmed in ${where}, in ${when}. None found is not none there.`
    : `Resistance is confirmed in ${count(weeds(confirmed))} of ${many(weeds(lines), 'weed', 'weeds')} screened from ${where}, in ${when}.`;
}

/** `kochia (groups 2, 4 and 9)`, weed by weed. */
export function byWeed(pairs: readonly Pair[]): string[] {
  const weeds = [...new Set(pairs.map(({ species }) => species))];
  return weeds.map((weed) => {
    const groups = pairs.filter(({ species }) => species === weed).map(({ group }) => String(group));
    return `${weedName(weed)} (${groups.length === 1 ? 'group' : 'groups'} ${list(groups, { comma: ', ' })})`;
  });
}

/** A paragraph to be copied: what, how many, from where, and what it is not. */
export function countyLetter({ head, lines, window, county }: CountyReport): string {
  const told = lines
    .filter(({ numbers }) => numbers.status === 'confirmed' && numbers.estimate)
    .map(({ pair, numbers: { estimate, place } }) => {
      const where = place.kind === 'area' ? ` (${place.name} together)` : '';
      return `${weedName(pair.species)} resistant to group ${pair.group} in ${count(estimate!.resistant)} of ${count(estimate!.tested)} populations screened${where}`;
    });
  const found =
    told.length > 0
      ? `found ${list(told, { limit: 6 })}`
      : 'has no confirmed resistance to show with numbers';
  const simulated = head.simulated ? ' These data are simulated.' : '';
  return `${county.fullName}, seed collected ${periodLabel(window)}: ${head.programme} ${found}. Growers send what they suspect, so this is not the share of all fields, and none found is not none there. Follow the label and your local extension recommendations. (Release ${head.number}, ${head.date}.)${simulated}`;
}

/** Beside every comparison of seasons. */
export const submissionsCaution: string = SUBMISSIONS_CAUTION;

/** Findings that are told in one sentence each. */
export type Told = Clustering | MatchedChange | SpeedOfSpread | Trend;

/** What a finding says, and what of it a language can only show as the release has it; null: nothing. */
export interface Said {
  words: string;
  asWritten: string | null;
}

/** What a finding says; sentences of findings are written in this language. */
export function findingWords({ sentence: said, reason }: Told, _region: Region): Said {
  return {
    words: sentenceStart(reason && !said.includes(reason) ? `${said} ${reason}` : said),
    asWritten: null,
  };
}

/** A change without the caution that stands once below several. */
export function changeWords(change: MatchedChange): string {
  return sentenceStart(change.sentence).replace(` ${SUBMISSIONS_CAUTION}`, '');
}

export function firstDetectionWords(detection: FirstDetection, _region: Region): string {
  return sentenceStart(detection.sentence);
}

/** What a clean record allows, of a line whose numbers are public. */
export function reassuranceWords({ pair, numbers, clean }: CountyLine): string {
  const { tested } = numbers.estimate!;
  const more = clean!.more === 0 ? '' : ` ${clean!.more} more, all clean, would bring that to 10 % or less.`;
  return `${sentenceStart(weedName(pair.species))}, group ${pair.group}: none found in ${tested} screened from ${numbers.place.name}. That still allows up to ${percent(clean!.upper)} of populations like these to be resistant.${more}`;
}
