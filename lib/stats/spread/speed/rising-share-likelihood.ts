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
  const used = own.flatMap((_, place) =>
    Array.from(seasons, (_, t) => t).some((t) => tested[t * places + place]! > 0) && own[place]!.length > 0
      ? [place]
      : [],
  );
  const slopes = new Float64Array(points.x.length);
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
      [byLogWidth, byLogitLevel] = [0, 0];
      for (const point of mine) slopes[point] = 0;
      let sum = 0;
      for (let t = 0; t < seasons.length; t += 1) {
        const cell = t * places + at;
        const n = tested[cell]!;
        if (n === 0) continue;
        const r = resistant[cell]!;
        let filled = 0;
        for (const point of mine) filled += 1 / (1 + Math.exp((time[point]! - seasons[t]!) / width));
        filled /= mine.length;
        const share = Math.min(1 - SHY, Math.max(SHY, level * filled));
        sum += r * Math.log(share) + (n - r) * Math.log1p(-share);
        const byShare = (r - n * share) / (share * (1 - share));
        byLogitLevel += byShare * share * (1 - level);
        const each = (byShare * level) / mine.length;
        for (const point of mine) {
          const u = (seasons[t]! - time[point]!) / width;
          const share = 1 / (1 + Math.exp(-u));
          const steep = each * share * (1 - share);
          slopes[point]! -= steep / width;
          byLogWidth -= steep * u;
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
