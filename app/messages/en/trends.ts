import type { EffortBar } from '@/lib/figures/bars-figure';
import type { PanelWindow } from '@/lib/figures/panel-figure';
import type { MatchedChange } from '@/lib/findings/types';
import { type Period, type PlaceStatus, periodLabel } from '@/lib/vocabulary/terms';
import type { CropPanel, StateCrops } from '../../view/crop-panels';
import type { MatchedPlace, PanelPart, TrendsReport } from '../../view/trends-report';
import { ratioNumber, sentence, sentenceStart } from '../format';
import { count, interval, list, many, percent } from './format';
import { cropName, weedName } from './names';
import { estimateWords } from './sentences';
import { texts } from './texts';

/** What the page of trends says. */
export const trends = {
  title: (weed: string, group: number, place: string) =>
    `${sentenceStart(weed)} and group ${group}, season by season, ${place}`,
  pair: 'Weed and herbicide group',
  place: 'Place',
  districtsOf: (state: string) => `Districts of ${state}`,
  read: 'How to read this',
  table: 'As a table',
  more: 'All trends: effort, places, districts, every weed and group',
  share: {
    heading: 'Share resistant',
    reading:
      'Each dot is the share of the populations screened in that season that were resistant, its bar the 95 % interval: a long bar means that few were screened. A hatched season is withheld, and no line crosses it. A season without a mark was not screened.',
  },
  effort: {
    heading: 'How many were screened',
    reading:
      'Full bars are populations screened, empty frames above them those received and not screened (not ripe, mouldy, dormant, or the run was void). Where bars grow, more was sent: look here before you take a rise of the share for a rise of resistance.',
    caption: 'Received and screened, by season',
    received: 'Received',
    notTold: 'not told at this grain',
  },
  match: {
    heading: 'The same places, a season later',
    reading:
      'Only places with public numbers in both seasons, each compared with itself, so that it does not matter where more was sent. The hollow mark is the earlier season, the full one the later; the numbers on the right say how many were screened in each.',
    none: 'No two seasons of one place can be compared here: too few are public.',
    caption: (from: number, to: number) => `Share resistant in ${from} and ${to}, place by place`,
  },
  found: {
    heading: 'Where it was found',
    reading:
      'Each row is one run of seasons and all counties of the region; a county that is counted together with its neighbours has the look of them all. Found places may be found because more was looked for: compare the parts that were not screened.',
    caption: 'Counties and districts by what is public of them, run by run',
    counties: 'Counties',
    districts: 'Districts',
    states: 'States',
    window: 'Seasons',
    first: 'First shown',
    newIn: (period: string) => `First shown in ${period}`,
    nothingNew: 'No place was first shown in these seasons.',
    note: 'These are no counts that grow by themselves: each run of seasons stands for what was screened in it.',
  },
  several: (weed: string, place: string) => `Several groups at once: ${weed}, ${place}`,
  panels: {
    heading: 'District by district',
    states: 'State by state',
    reading:
      'All have the same axes. A box is a run of seasons counted together: the line is its share, the height its 95 % interval. Dots are single seasons where those may be shown. A hatched run is withheld; where there is nothing, nothing was screened or a single season may not be shown.',
    state: stateWords,
    none: 'No district is screened for this weed and group.',
    absent: (places: readonly string[]) =>
      `Not screened at all: ${list(places, { comma: ', ', limit: 40 })}.`,
    hidden: (places: readonly string[]) =>
      `Nothing public: ${list(places, { comma: ', ', limit: 40 })}. That says nothing about what was found there.`,
  },
  crops: {
    heading: 'Crop by crop',
    reading:
      'Populations from fields of one crop in one state. Each box is a single season: the line is its share, the height its 95 % interval; a hatched season is withheld, and where there is nothing, none was screened. Crops stand in different places and are sprayed with different herbicides, so a difference between two of them does not say why.',
    state: cropsWords,
    newest: newestWords,
  },
  overview: {
    weed: (weed: string, groups: readonly number[]) =>
      `${sentenceStart(weed)}: ${groups.length === 1 ? 'group' : 'groups'} ${list(groups.map(String), { comma: ', ', limit: 30 })}`,
    heading: 'Every weed and group in the region',
    reading:
      'The whole region, all on the same axes: dots are seasons, a hatched season is withheld, the hollow dot is the season still being screened. A name leads to its own trends.',
    changes: (from: number, to: number) => `Change from ${from} to ${to}, each place compared with itself`,
    ratio:
      'The odds of a resistant population in the later season, as a multiple of those in the earlier one; the bar is the 95 % interval. A bar that crosses the rule at 1 is no clear change. An arrow: the interval goes on.',
    less: '← fewer',
    more: 'more →',
    noRatio: 'cannot be compared',
    caption: 'Odds ratios with their 95 % intervals',
    odds: 'Odds ratio',
    places: 'Places',
  },
  headline,
  effortWords,
  windowWords,
  pairWords,
  partWords,
  ratioWords,
  foundWords,
  matchWords,
};

/** The last closed season that is public, beside the first one. */
function headline({ points, pair, place }: Pick<TrendsReport, 'points' | 'pair' | 'place'>): string[] {
  const shown = points.filter(({ withheld, tested, unfinished }) => !withheld && tested > 0 && !unfinished);
  const [first, last] = [shown[0], shown.at(-1)];
  if (!first || !last) {
    const any = points.some(({ withheld }) => withheld);
    return [
      any
        ? `No single season of ${weedName(pair.species)} and group ${pair.group} is public for ${place.name}.`
        : `No ${weedName(pair.species)} from ${place.name} was screened against group ${pair.group}.`,
    ];
  }
  const share = ({ resistant, tested }: typeof first) => resistant / tested;
  const sentences = [
    `${last.season}: ${estimateWords({ ...last, share: share(last) })}`,
    ...(first.season === last.season
      ? []
      : [
          `In ${first.season} it was ${percent(share(first))} of ${count(first.tested)} (95 % interval ${interval(first)}).`,
        ]),
  ];
  const withheld = points.filter((point) => point.withheld).length;
  if (withheld > 0) sentences.push(sentence(`${many(withheld, 'season is', 'seasons are')} withheld`));
  return sentences;
}

/** What a bar of effort says. */
function effortWords({ season, tested, received, unfinished }: EffortBar): string {
  const words = `${season}: ${count(tested)} screened${received === null ? '' : ` of ${count(received)} received`}`;
  return sentence(unfinished ? `${words}; ${texts.trend.unfinished}` : words);
}

/** What a run of seasons says. */
function windowWords({ first, last, tested, resistant, low, high, withheld }: PanelWindow): string {
  const period = periodLabel({ first, last });
  if (withheld) return `${period}: ${texts.withheld}.`;
  return `${period}: ${estimateWords({ tested, resistant, low, high, share: tested > 0 ? resistant / tested : 0 })}`;
}

/** `Kansas, 9 districts, 2022–2024: found in 5, none found in 2, withheld in 2`. */
function stateWords({ state, districts, looks }: PanelPart, window: Period | undefined): string {
  const name = `${state.place.name}, ${many(districts.length, 'district', 'districts')}`;
  const said = [
    [looks.confirmed, 'found in'],
    [looks['none confirmed'], 'none found in'],
    [looks['no public information'], 'withheld in'],
    [looks['not screened'], 'not screened in'],
  ] as const;
  const told = said.filter(([number]) => number > 0).map(([number, words]) => `${words} ${count(number)}`);
  return window ? `${name}, ${periodLabel(window)}: ${told.join(', ')}` : name;
}

/** `Kansas: wheat, sorghum and corn`. */
function cropsWords({ state, crops }: StateCrops): string {
  const names = crops.map(({ crop }) => cropName(crop));
  return `${state.name}: ${list(names, { comma: ', ', limit: 30 })}`;
}

/** The newest public season of a crop: `2024: 7 of 20: 35 % (18–57 %)`. */
function newestWords({ points }: CropPanel): string {
  const newest = points.findLast(({ withheld, tested }) => !withheld && tested > 0);
  if (!newest) return '';
  const { season, tested, resistant } = newest;
  return `${season}: ${count(resistant)} of ${count(tested)}, ${percent(resistant / tested)} (${interval(newest)})`;
}

/** What a place says in two seasons. */
function pairWords({ place, from, to }: MatchedPlace, { from: a, to: b }: MatchedChange): string {
  return `${place.name}: ${a}: ${estimateWords(from)} ${b}: ${estimateWords(to)}`;
}

/** What a part of a row says. */
function partWords(period: string, status: PlaceStatus, counties: number): string {
  return `${period}: ${texts.status[status]}, ${many(counties, 'county', 'counties')}`;
}

/** `2.37 (0.86 to 6.56)`. */
function ratioWords({ oddsRatio, low, high }: MatchedChange): string {
  if (oddsRatio === null) return trends.overview.noRatio;
  return `${ratioNumber(oddsRatio)} (${ratioNumber(low)} to ${ratioNumber(high)})`;
}

/** Rows of a picture of places by look, for those who do not see it. */
function foundWords(rows: readonly { window: Period; counties: Record<PlaceStatus, number> }[]): string {
  return rows
    .map(({ window, counties }) =>
      sentence(
        `${periodLabel(window)}: ${Object.entries(counties)
          .map(([status, number]) => `${texts.status[status as PlaceStatus]} ${count(number)}`)
          .join(', ')}`,
      ),
    )
    .join(' ');
}

/** Who rose and who fell, for those who do not see it. */
function matchWords(matched: readonly MatchedPlace[]): string {
  const rose = matched.filter(({ from, to }) => to.share > from.share).length;
  const fell = matched.filter(({ from, to }) => to.share < from.share).length;
  return `Of ${many(matched.length, 'place', 'places')} the share was larger in the later season in ${count(rose)} and smaller in ${count(fell)}.`;
}
