import { greatCircle } from '@/lib/stats/scan/great-circle';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { lineSpeeds } from '@/lib/stats/spread/speed/line-speeds';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import type { SpeedOfSpread } from '../types';
import type { SimpleSpeeds, SpreadGround } from './types';

/**
 * The simple estimates beside a speed that is told, from its first origin: null where none is told, or all finds are of
 * one season.
 */
export function findSimpleSpeeds(
  counts: SeasonCounts,
  { lon, lat, areas }: Pick<SpreadGround, 'lon' | 'lat' | 'areas'>,
  { speed, origins }: Pick<SpeedOfSpread, 'speed' | 'origins'>,
): SimpleSpeeds | null {
  const [origin] = origins;
  const { firstFound } = arrivals(counts);
  const found = Array.from(firstFound, (row, place) => ({ row, place })).filter(({ row }) => row >= 0);
  if (speed === null || !origin || new Set(found.map(({ row }) => row)).size < 2) return null;
  const times = found.map(({ row }) => counts.seasons[row]!);
  const away = found.map(({ place }) => greatCircle(origin.lon, origin.lat, lon[place]!, lat[place]!));
  const { leastSquares, inverse, throughFirst, leadingEdge } = lineSpeeds(times, away);
  const seasons = Array.from(counts.seasons).filter((season) => season >= Math.min(...times));
  const radii = seasons.map((season) =>
    Math.sqrt(
      found.reduce((sum, { place }, i) => sum + (times[i]! <= season ? areas[place]! : 0), 0) / Math.PI,
    ),
  );
  return {
    leastSquares,
    inverse,
    throughFirst,
    leadingEdge,
    rootArea: lineSpeeds(seasons, radii).leastSquares,
  };
}
