import type { Region } from '@/lib/geography/types';
import type { Season } from '@/lib/vocabulary/terms';
import type { Effort } from './effort';
import { PARAMETERS } from './parameters';
import type { Population } from './population';
import type { SpeciesPlan } from './species-plans';

/** First detections of what moves (a front, introductions) as the seasons go by, and the effort that follows them. */
export interface Detections {
  /** Takes in the populations of a season; seasons in ascending order. */
  record(season: Season, populations: readonly Population[]): void;
  /** Whether anything that moves was detected in the county before the season. */
  anyBefore(county: number, season: Season): boolean;
  /** Effort by county for a species: doubled where a neighbour had its first detection in the season before. */
  effortFor(species: number, season: Season): Float64Array;
}

export function createDetections(
  region: Region,
  effort: Effort,
  species: readonly SpeciesPlan[],
): Detections {
  const moving = species.map(({ tests }) =>
    tests.findIndex(({ model }) => model.kind === 'front' || model.kind === 'introductions'),
  );
  const first = species.map((_, s) => (moving[s]! < 0 ? null : new Int32Array(region.counties.length)));

  return {
    record(season, populations) {
      for (const { county, species: s, resistantTo, viable } of populations) {
        const seen = first[s];
        if (!seen || !viable || seen[county] !== 0) continue;
        if (resistantTo[moving[s]!]!.some(Boolean)) seen[county] = season;
      }
    },
    anyBefore: (county, season) =>
      first.some((seen) => seen !== null && seen[county]! > 0 && seen[county]! < season),
    effortFor(s, season) {
      const seen = first[s];
      if (!seen) return effort.weights;
      return effort.weights.map((weight, county) =>
        region.neighbours[county]!.some((other) => seen[other] === season - 1)
          ? weight * PARAMETERS.effortAfterDetectionNextDoor
          : weight,
      );
    },
  };
}
