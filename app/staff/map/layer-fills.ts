import {
  effortTone,
  type Fill,
  plainFill,
  SHARE_CLASSES,
  shareClass,
  shareTone,
  type Tone,
} from '@/lib/figures/looks';
import { upperLimit } from '@/lib/stats/clopper-pearson';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { mapTexts as texts } from '../messages/map';
import type { PrivateMap } from './read-private-map';

/** How a place is filled, and what its title says. */
export interface PlaceLook {
  fill: Fill;
  words: string;
}

/** A fill and what it means. */
export interface LegendLine {
  fill: Fill;
  words: string;
}

/** Fewer populations than this are drawn in lighter ink. */
const FEW = 5;
const EFFORT_BOUNDS = [1, 5, 10, 30];
const NEXT_BOUNDS = [10, 25, 50, Number.POSITIVE_INFINITY];
const DOMINANCE_BOUNDS = [0, 0.4, 0.6, 0.8];
const QUESTION_BOUNDS = [1, 2, 5, 10];

const solid = (tone: Tone): Fill => ({ tone, faint: false });
const BLANK = plainFill('blank', null);
const CLEAN = plainFill('clean', null);

/** How the layer fills a place. */
export function lookOfPlace(map: PrivateMap, place: string): PlaceLook {
  const cell = map.cells.get(place);
  const tested = cell?.tested ?? 0;
  const resistant = cell?.resistant ?? 0;
  const words = countWords(tested, resistant);
  switch (map.view.layer) {
    case 'share':
      return { fill: shareFill(tested, resistant), words };
    case 'since': {
      const season = map.since.get(place);
      if (season === undefined) return { fill: tested > 0 ? CLEAN : BLANK, words };
      return { fill: solid(shareTone(sinceClass(map, season))), words: `${texts.since(season)}; ${words}` };
    }
    case 'effort':
      return { fill: tested === 0 ? BLANK : solid(effortTone(classOf(EFFORT_BOUNDS, tested))), words };
    case 'cluster':
      return clusterLook(map, place, words);
    case 'next': {
      const list = map.spread?.lookNext?.places ?? [];
      const at = list.findIndex((one) => one.place === place);
      if (at < 0) return { fill: plainFill('confirmed', null), words };
      const step = 4 - NEXT_BOUNDS.findIndex((bound) => at < bound);
      return { fill: solid(effortTone(step)), words: `${at + 1}. ${list[at]!.reason}; ${words}` };
    }
    case 'dominance': {
      if (!cell || tested === 0) return { fill: BLANK, words };
      const step = classOf(DOMINANCE_BOUNDS, cell.largestOperation / tested, true);
      return {
        fill: { tone: effortTone(step), faint: tested < FEW },
        words: texts.dominance(cell.largestOperation, tested, cell.operations),
      };
    }
    case 'questions': {
      const rows = map.questions.get(place) ?? 0;
      if (rows === 0) return { fill: BLANK, words: texts.noQuestions };
      return { fill: solid(effortTone(classOf(QUESTION_BOUNDS, rows))), words: texts.questions(rows) };
    }
  }
}

/** What a map's fills mean. */
export function legendOf(map: PrivateMap): LegendLine[] {
  const { legend } = texts;
  const ramp = (tone: (step: number) => Tone, words: readonly string[]): LegendLine[] =>
    words.map((one, at) => ({ fill: solid(tone(at + 1)), words: one }));
  const blank = { fill: BLANK, words: legend.blank };
  const clean = { fill: CLEAN, words: legend.clean };
  switch (map.view.layer) {
    case 'share':
      return [
        ...ramp(shareTone, legend.share),
        { fill: { tone: 'share-3', faint: true }, words: legend.faint },
        clean,
        blank,
      ];
    case 'since':
      return [...sinceLegend(map), clean, blank];
    case 'effort':
      return [...ramp(effortTone, legend.effort), blank];
    case 'cluster':
      return [
        { fill: solid('share-4'), words: legend.where },
        { fill: solid('share-2'), words: legend.more },
        { fill: solid('low-2'), words: legend.less },
        { fill: solid('level'), words: legend.none },
        { fill: CLEAN, words: legend.thin },
        blank,
      ];
    case 'next':
      return [
        ...[...ramp(effortTone, [...legend.next].reverse())].reverse(),
        { fill: plainFill('confirmed', null), words: legend.found },
      ];
    case 'dominance':
      return [
        ...ramp(effortTone, legend.dominance),
        { fill: { tone: 'effort-3', faint: true }, words: legend.faint },
        blank,
      ];
    case 'questions':
      return [...ramp(effortTone, legend.questions), { fill: BLANK, words: texts.noQuestions }];
  }
}

/** Counts, share and interval in words; of a clean place what it still allows. */
export function countWords(tested: number, resistant: number): string {
  if (tested > 0 && resistant === 0)
    return `${texts.words(tested, 0, null)}; ${texts.clean(upperLimit(0, tested))}`;
  return texts.words(tested, resistant, tested === 0 ? null : wilsonInterval(resistant, tested));
}

function shareFill(tested: number, resistant: number): Fill {
  if (tested === 0) return BLANK;
  if (resistant === 0) return CLEAN;
  return { tone: shareTone(shareClass(resistant / tested)), faint: tested < FEW };
}

function clusterLook({ clustering }: PrivateMap, place: string, words: string): PlaceLook {
  const local = clustering?.local.find((one) => one.place === place);
  if (!clustering || !local) return { fill: BLANK, words };
  const told = `${texts.legend[CLUSTER_WORDS[local.pattern]]}; ${words}`;
  if (clustering.verdict !== 'lie together')
    return { fill: local.pattern === 'too little tested' ? CLEAN : solid('level'), words };
  if (clustering.where.includes(place))
    return { fill: solid('share-4'), words: `${texts.legend.where}; ${words}` };
  if (local.pattern === 'more around here') return { fill: solid('share-2'), words: told };
  if (local.pattern === 'less around here') return { fill: solid('low-2'), words: told };
  return { fill: local.pattern === 'no sign' ? solid('level') : CLEAN, words: told };
}

const CLUSTER_WORDS = {
  'more around here': 'more',
  'less around here': 'less',
  'no sign': 'none',
  'too little tested': 'thin',
} as const;

/** Class 1 … 4 of a value by ascending lower bounds; `above`: only what is above a bound reaches it. */
function classOf(bounds: readonly number[], value: number, above = false): number {
  return Math.max(1, bounds.filter((bound) => (above ? value > bound : value >= bound)).length);
}

/** Four spans of seasons up to the end of the period, the earliest darkest. */
function spansOf({ since }: PrivateMap): [first: number, last: number][] {
  const seasons = [...since.values()];
  if (seasons.length === 0) return [];
  const [first, last] = [Math.min(...seasons), Math.max(...seasons)];
  const step = Math.max(1, Math.ceil((last - first + 1) / SHARE_CLASSES.length));
  return SHARE_CLASSES.flatMap((_, at): [number, number][] => {
    const from = first + at * step;
    return from > last ? [] : [[from, Math.min(last, from + step - 1)]];
  });
}

function sinceClass(map: PrivateMap, season: number): number {
  return 4 - spansOf(map).findIndex(([first, last]) => first <= season && season <= last);
}

function sinceLegend(map: PrivateMap): LegendLine[] {
  return spansOf(map).map(([first, last], at) => ({
    fill: solid(shareTone(4 - at)),
    words: texts.legend.since(first, last),
  }));
}
