import type { SeasonCounts, SpreadPoints } from '@/lib/stats/spread/types';
import { buildWeights } from '@/lib/stats/weights';
import nothing from './spread-null.json';
import wave from './spread-wave.json';

function readCase(file: typeof wave | typeof nothing) {
  const places = file.x.length;
  const tested = new Int32Array(file.seasons.length * places);
  const resistant = new Int32Array(file.seasons.length * places);
  file.records.place.forEach((place, k) => {
    const cell = file.records.season[k]! * places + place;
    tested[cell] = file.records.tested[k]!;
    resistant[cell] = file.records.resistant[k]!;
  });
  const counts: SeasonCounts = { seasons: file.seasons, places, tested, resistant };
  const points: SpreadPoints = { x: file.x, y: file.y, metric: 'plane' };
  const weights = buildWeights(file.neighbours, 'binary');
  return { counts, points, weights, origin: file.origin, expected: file.expected };
}

/** Two seeded simulations on a real map; the source stands in the files. */
export const WAVE = readCase(wave);
export const NOTHING = readCase(nothing);
