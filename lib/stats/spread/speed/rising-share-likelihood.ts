import type { PlaceTerms } from './arrival-likelihood';
import type { SpreadMap } from './types';

/**
 * A front in the share: resistant of tested is binomial with the share level · logistic((season − time) / width), which
 * a place of several points averages over them.
 *
 * @source the project's statistics brief; logistic growth in time: Fisher 1937, Annals of Eugenics 7:355–369, for why a
 *   front keeps its form (from memory)
 */
export function risingShareCells({ counts, points, members }: SpreadMap, time: Float64Array): PlaceTerms {
  const { seasons, places, tested, resistant } = counts;
  const own = Array.from({ length: places }, (_, place) => members?.[place] ?? [place]);
  const rows = own.map((_, place) =>
    Array.from(seasons, (_, t) => t).filter((t) => tested[t * places + place]! > 0),
  );
  const used = own.flatMap((points, place) => (rows[place]!.length > 0 && points.length > 0 ? [place] : []));
  const slopes = new Float64Array(points.x.length);
  const odds = new Float64Array(points.x.length);
  const steepness = new Float64Array(points.x.length);
  let [width, level] = [1, 0.5];
  let [byLogWidth, byLogitLevel, at] = [0, 0, 0];
  return {
    places: used,
    prepare(newWidth, newLevel) {
      width = newWidth;
      level = newLevel;
    },
    logLikelihood(k) {
      at = used[k]!;
      const mine = own[at]!;
      byLogWidth = 0;
      byLogitLevel = 0;
      let sum = 0;
      let before = seasons[0]!;
      for (const point of mine) {
        slopes[point] = 0;
        // Odds of “not yet”: they fall by one factor from season to season, so that one exponential does for all.
        odds[point] = Math.exp((time[point]! - before) / width);
      }
      for (const t of rows[at]!) {
        const cell = t * places + at;
        const n = tested[cell]!;
        const r = resistant[cell]!;
        const factor = Math.exp((before - seasons[t]!) / width);
        before = seasons[t]!;
        let filled = 0;
        for (const point of mine) {
          odds[point]! *= factor;
          const share = 1 / (1 + odds[point]!);
          filled += share;
          steepness[point] = share * (1 - share);
        }
        filled /= mine.length;
        const share = Math.min(1 - SHY, Math.max(SHY, level * filled));
        sum += r * Math.log(share) + (n - r) * Math.log1p(-share);
        const byShare = (r - n * share) / (share * (1 - share));
        byLogitLevel += byShare * share * (1 - level);
        const each = (byShare * level) / mine.length;
        for (const point of mine) {
          const steep = each * steepness[point]!;
          slopes[point]! -= steep / width;
          if (steep !== 0) byLogWidth += (steep * (time[point]! - before)) / width;
        }
      }
      return sum;
    },
    byLogWidth: () => byLogWidth,
    byLogitLevel: () => byLogitLevel,
    forTimes: (add) => {
      for (const point of own[at]!) add(point, slopes[point]!);
    },
  };
}

/** Keeps logarithms finite; a find so far ahead of the front counts no more than this. */
const SHY = 1e-12;
