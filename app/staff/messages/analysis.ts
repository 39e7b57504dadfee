import { count, many, percent } from '@/app/messages/en/format';
import type { ClusteringVerdict } from '@/lib/findings/types';

const NEARNESS: Record<string, string> = {
  near: 'new finds lie near earlier ones',
  'no sign': 'no sign that new finds lie near earlier ones',
  'too little found': 'too few new finds to tell whether they lie near earlier ones',
};

/** Texts of the pages about analyses. */
export const analysisTexts = {
  title: 'Analysis',
  intro:
    'Every weed × group is tested for clustering in each window and design, and for spread over the closed seasons, from exact counts. What has not changed since the last analysis is taken over.',
  start: 'Start an analysis',
  startText:
    'It runs beside your other work, and takes minutes where much has changed. It can be cancelled: the parts that are done are kept, and the next one goes on from there.',
  startButton: 'Analyse what is stored now',
  started: 'The analysis was asked for. You can follow it here.',
  last: (id: number, when: string, by: string, parts: number) =>
    `Analysis ${id}, finished ${when}, asked for by ${by}: ${count(parts)} parts.`,
  none: 'There is no analysis yet.',
  failed: (message: string) => `The last one failed. ${message}`,
  cancelled: (by: string) => `The last one was cancelled by ${by}; what it had made is kept.`,
  verdicts: {
    'lie together': 'resistant populations lie together',
    'no sign': 'no sign that they lie together',
    'too little tested': 'too little screened to tell',
  } satisfies Record<ClusteringVerdict, string>,
  verdictCount: (maps: number, words: string) => `${many(maps, 'map', 'maps')}: ${words}`,
  changes: 'What is new since the analysis before',
  otherMethods: 'The analysis before was made by other methods: the two are not compared.',
  noBefore: 'There is no analysis before this one to compare with.',
  noChanges: 'Nothing: every verdict, every cluster and every speed is as before.',
  verdictChange: (map: string, now: string, before: string | null) =>
    `${map}: now ${now}; before, ${before ?? 'it was not there'}.`,
  clusterChange: (map: string, joined: string, left: string) =>
    `${map}: the cluster ${[joined && `gains ${joined}`, left && `loses ${left}`].filter(Boolean).join(' and ')}.`,
  speedTold: (map: string, now: string) => `${map}: a speed is told now, ${now}.`,
  speedGone: (map: string, before: string) => `${map}: no speed is told any more; before, ${before}.`,
  speedOther: (map: string, now: string, before: string) => `${map}: now ${now}; before, ${before}.`,
  speed: (km: number, low: number, high: number) =>
    `${Math.round(km)} km a season (${Math.round(low)}–${Math.round(high)})`,
  findings: 'What it finds',
  findingsText:
    'For each weed and group, all designs together. Each p allows for the tests of one map, not for the number of maps.',
  inShort: (together: number, maps: number, nearness: string, speed: string | null) =>
    `${together === 0 ? 'no cluster' : `lies together in ${together} of ${many(maps, 'map', 'maps')}`}; ${NEARNESS[nearness] ?? nearness}${speed ? `; ${speed}` : ''}`,
  together: 'Lying together, by window',
  spread: 'Spread',
  more: 'All maps, tests, places and where to look next',
  designOnly: (design: string) => `${design} samples only`,
  allDesigns: 'all designs',
  madeOf: (resistant: number, operations: number, largest: number) =>
    `Made of ${many(resistant, 'resistant population', 'resistant populations')} from ${many(operations, 'operation', 'operations')}; one of them sent ${count(largest)}.`,
  several: 'Several groups in one population',
  dominance: 'Where one operation sent most',
  dominanceText: (share: number) =>
    `Counties with at least five screened populations of a weed and group, more than ${percent(share)} of them from one operation. What is found there speaks for one farm first. Operations are never named here.`,
  dominanceColumns: ['County', 'Weed × group', 'Screened', 'From one operation', 'Operations'],
  dominanceCount: (counties: number) => many(counties, 'county and weed × group', 'counties by weed × group'),
  dominanceNone: 'No such county.',
  dominanceMore: (left: number) => `${many(left, 'more', 'more')} with fewer populations are left out.`,

  pairTitle: (pair: string) => `Analysis: ${pair}`,
  unknownPair: 'The last analysis has no such weed and group.',
  mapsHeading: 'Clustering',
  tests: 'The tests behind it',
  spreadHeading: 'Spread over the closed seasons',
  stated: 'A speed from a stated beginning',
  statedText:
    'The analysis estimates where the spread began together with its speed. Where a record says in which county it began, the front can be fitted from there. It is computed from the closed seasons as they are stored now.',
  statedFrom: 'Where it began',
  statedButton: 'Fit the speed from there',
  statedAsked: 'The speed was asked for. You can follow it here.',
  statedFailed: (message: string) => `It could not be fitted. ${message}`,
  statedIn: (county: string) => `Begun in ${county}, as stated and not estimated:`,
  statedBy: (by: string, when: string) => `Asked for by ${by}, ${when}.`,
  lookNext: 'Where to look next',
  lookNextTitle: (pair: string, season: number) => `${pair}: where to look in ${season}`,
  lookNextMap:
    'Counties without a find, darker where one is likelier; counties with a find are left in full colour.',
  lookNextNone: 'There is no such list: no season is closed, or nothing was screened.',
  lookNextColumns: ['Rank', 'County', 'Chance', 'Why', 'Screened', 'Last'],
  lookNextFile: 'As a layer for a map (GeoJSON)',
  lookNextAll: (places: number) => `All ${count(places)} counties`,
  lookClasses: ['among the first 10', 'among the first 25', 'among the first 50', 'further down'],
  found: 'found already',
  rank: (rank: number) => `number ${rank} of the list`,
  chance: (chance: number | null, low: number | null, high: number | null) =>
    chance === null
      ? '–'
      : `${percent(chance)}${low === null || high === null ? '' : ` (${Math.round(100 * low)}–${Math.round(100 * high)} %)`}`,
  never: 'never',
  detections: 'Since when, county by county',
  clean: 'Screened and nothing found: what that still allows',
  onMap: 'On the map',
} as const;
