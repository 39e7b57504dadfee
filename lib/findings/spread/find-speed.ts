import { greatCircle } from '@/lib/stats/scan/great-circle';
import { type NoSpeed, type Speed, type SpeedOptions, speedOfSpread } from '@/lib/stats/spread/speed/speed';
import type { SpreadMap } from '@/lib/stats/spread/speed/types';
import type { PlaceKey, Season } from '@/lib/vocabulary/terms';
import type { SpeedOfSpread } from '../types';
import { speedSentence } from './speed-sentence';

export interface SpeedInput {
  species: SpeedOfSpread['species'];
  group: SpeedOfSpread['group'];
  /** Closed seasons only. */
  map: SpreadMap;
  grain: SpeedOfSpread['grain'];
  /** Keys of the points of the map, and how sentences name them. */
  points: readonly PlaceKey[];
  pointNames: readonly string[];
  options: SpeedOptions;
  speciesName: string;
}

/**
 * How fast does it move, from where, faster to which side, and which finds are too far ahead to be the front's?
 *
 * @throws StatsError for impossible counts
 */
export function findSpeed(input: SpeedInput): SpeedOfSpread {
  const { species, group, map, grain, points, pointNames, options, speciesName } = input;
  const { seasons } = map.counts;
  const found = speedOfSpread(map, options);
  const shared = {
    ...{ kind: 'speed' as const, species, group, grain },
    from: seasons[0] ?? null,
    to: seasons[seasons.length - 1] ?? null,
  };
  const told: Omit<SpeedOfSpread, 'sentence'> =
    found.kind === 'speed' ? { ...shared, ...describe(found, input) } : { ...shared, ...refuse(found) };
  const names = new Map(points.map((key, i) => [key, pointNames[i]!]));
  return { ...told, sentence: speedSentence(told, speciesName, (key) => names.get(key) ?? key) };
}

type Told = Omit<SpeedOfSpread, 'sentence' | 'kind' | 'species' | 'group' | 'grain' | 'from' | 'to'>;

function describe(found: Speed, { map, points }: SpeedInput): Told {
  const { x, y, metric } = map.points;
  const distance = (lon: number, lat: number, i: number) =>
    metric === 'plane' ? Math.hypot(lon - x[i]!, lat - y[i]!) : greatCircle(lon, lat, x[i]!, y[i]!);
  const nearest = (lon: number, lat: number) => {
    const away = (i: number) => distance(lon, lat, i);
    return points.reduce((best, _, i) => (away(i) < away(best) ? i : best), 0);
  };
  return {
    ...{ speed: found.speed, low: found.low, high: found.high },
    model: found.fit.model,
    origins: found.fit.origins.map(({ x: lon, y: lat, start }) => {
      const at = nearest(lon, lat);
      const kilometres = distance(lon, lat, at);
      return { lon, lat, place: points[at]!, kilometres, since: Math.floor(start) as Season };
    }),
    otherSpeed: found.other?.speed ?? null,
    direction:
      found.direction && found.direction.p <= LEVEL
        ? {
            towards: found.direction.towards,
            fastest: found.direction.fastest,
            slowest: found.direction.slowest,
            p: found.direction.p,
          }
        : null,
    jumps: found.jumps.map(({ place, season, nearest: from, distance }) => ({
      ...{ place: points[place]!, season: map.counts.seasons[season]!, nearest: points[from]! },
      kilometres: distance,
    })),
    newFinds: found.newFinds,
    reason: null,
  };
}

function refuse({ message, newFinds }: NoSpeed): Told {
  return {
    ...{ speed: null, low: null, high: null, model: null, otherSpeed: null, direction: null },
    ...{ origins: [], jumps: [], newFinds, reason: message },
  };
}

const LEVEL = 0.05;
