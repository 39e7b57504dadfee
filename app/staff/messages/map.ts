import { count, interval, many, percent } from '@/app/messages/en/format';
import type { ShareEstimate } from '@/lib/findings/types';
import type { Assay, Design } from '@/lib/vocabulary/terms';
import type { Grain, Layer } from '../map/map-view';

/** Texts of the private map. */
export const mapTexts = {
  title: 'Map and trends',
  nothing: 'Nothing is screened yet, so there is no map.',
  choose: 'Choose what to see',
  pair: 'Weed and group',
  period: 'Seasons',
  by: 'By',
  grains: { county: 'county', district: 'district', state: 'state' } satisfies Record<Grain, string>,
  layer: 'Show',
  layers: {
    share: 'share found resistant',
    since: 'found since',
    effort: 'populations screened',
    cluster: 'lying together (last analysis)',
    next: 'where to look next (last analysis)',
    dominance: 'what one operation sent',
    questions: 'rows of any weed that wait for an answer',
  } satisfies Record<Layer, string>,
  design: 'How fields were chosen',
  designs: {
    submitted: 'submitted',
    random: 'random survey',
    'follow-up': 'follow-up',
    roadside: 'roadside',
  } satisfies Record<Design, string>,
  assay: 'Assay',
  assays: {
    'whole plant': 'whole plant',
    'soil-applied': 'soil-applied',
    molecular: 'molecular',
  } satisfies Record<Assay, string>,
  crop: 'Crop',
  funder: 'Funder',
  place: 'Place',
  all: 'all',
  whole: 'the whole region',
  show: 'Show it',
  asPublic: 'As the public sees it',
  asStaff: 'Back to exact counts',
  publicNow: (number: number) =>
    `This is what release ${number} shows of it: withheld counts are withheld here too. Crop and funder do not count here: no release has them by place.`,
  noRelease: 'Nothing is published yet: the public sees nothing.',
  notPublic: (windows: string) =>
    `The public has no such map: the release tells this grain by window (${windows}), and by season only where enough passes.`,
  headline: (pair: string, period: string, kept: readonly string[]) => [pair, period, ...kept].join(', '),
  allDesigns: 'all designs together',
  analysisWhole: 'The analysis takes neither crops nor funders apart: this layer is of all of them.',
  told: (tested: number, resistant: number, places: number, ofPlaces: string) =>
    tested === 0
      ? 'Nothing of it was screened.'
      : `${count(resistant)} of ${many(tested, 'screened population', 'screened populations')} ${resistant === 1 ? 'is' : 'are'} resistant, from ${count(places)} ${ofPlaces}.`,
  places: { county: 'counties', district: 'districts', state: 'states' } satisfies Record<Grain, string>,
  description: 'Exact counts, private.',
  words: (tested: number, resistant: number, share: Pick<ShareEstimate, 'low' | 'high'> | null) =>
    tested === 0
      ? 'not screened'
      : `${count(resistant)} of ${count(tested)} resistant${share ? ` (${percent(resistant / tested)}, ${interval(share)})` : ''}`,
  clean: (upper: number) => `none found; up to ${percent(upper)} could still be resistant`,
  legend: {
    share: ['under 25 %', '25–49 %', '50–74 %', '75 % and more'],
    faint: 'fewer than five screened',
    clean: 'screened, none found',
    blank: 'not screened',
    since: (first: number, last: number) => (first === last ? `${first}` : `${first}–${last}`),
    effort: ['1–4', '5–9', '10–29', '30 and more'],
    where: 'part of the cluster',
    more: 'more around here',
    less: 'less around here',
    none: 'no sign',
    thin: 'too little screened to tell',
    next: ['among the first 10', 'among the first 25', 'among the first 50', 'further down'],
    found: 'found already',
    dominance: ['up to 40 % from one operation', '41–60 %', '61–80 %', 'more than 80 %'],
    questions: ['1', '2–4', '5–9', '10 and more'],
    hidden: 'no public information',
  },
  since: (season: number) => `found since ${season}`,
  dominance: (largest: number, tested: number, operations: number) =>
    `${count(largest)} of ${count(tested)} from one of ${many(operations, 'operation', 'operations')}`,
  questions: (rows: number) => many(rows, 'row waits', 'rows wait'),
  noQuestions: 'no row waits',
  noAnalysis:
    'The last analysis has no such map. It has windows, the seasons since, and all seasons together.',
  table: 'The same as a table',
  tableColumns: ['Place', 'Screened', 'Resistant', 'Some survivors', 'Share', '95 % interval', 'Operations'],
  trend: 'Season by season',
  trendColumns: ['Season', 'Received', 'Screened', 'Resistant', 'Some survivors', 'Share', '95 % interval'],
  screened: 'screened',
  unfinished: 'under way',
  point: (season: number, words: string) => `${season}: ${words}`,
  split: 'Taken apart',
  splitText: 'The chosen place and seasons by design, assay, crop and funder; each line counts by itself.',
  splitColumns: ['', 'Screened', 'Resistant', 'Share', '95 % interval'],
  splits: { design: 'Design', assay: 'Assay', crop: 'Crop', funder: 'Funder' },
  notNamed: 'not named',
  findings: 'What the last analysis says',
  allFindings: 'Everything it says of this weed and group',
} as const;
