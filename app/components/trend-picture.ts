import { type TrendPoint, trendFigure } from '@/lib/figures/trend-figure';
import type { Texts } from '../messages/texts';

/** The share of a place season by season as a picture, in words of a language; as wide as a phone needs it. */
export function trendPicture({
  texts,
  points,
  title,
  stamp,
  prefix,
}: {
  texts: Texts;
  points: readonly TrendPoint[];
  title: string;
  stamp: string | null;
  prefix: string;
}): string {
  return trendFigure({
    points,
    title,
    description: texts.say.trendWords(points),
    words: {
      screened: texts.trend.screened,
      withheld: texts.withheld,
      unfinished: texts.trend.unfinished,
      point: (point) => `${point.season}: ${texts.say.pointWords(point)}`,
    },
    stamp,
    prefix,
    size: { width: 360, height: 220 },
  });
}
