import type { Clustering } from '@/lib/findings/types';
import type { PlaceNumbers } from './place-numbers';

/** A place beside its neighbours, told of places that differ from the rest of their map. */
export const CLUSTER_PATTERNS = [
  'raised, neighbours raised too',
  'stands out alone',
  'lower, neighbours lower',
  'lower than around it',
  'no sign',
  'too little tested',
] as const;

export type ClusterPattern = (typeof CLUSTER_PATTERNS)[number];

/**
 * The pattern of each place that a map's finding has compared, from the counts of the place and of its neighbours beside
 * the share of all places of the map. Only of a map whose verdict passes; of any other there is none.
 */
export function clusterPatterns(
  found: Clustering,
  places: readonly PlaceNumbers[],
): Map<string, ClusterPattern> {
  if (found.verdict !== 'lie together') return new Map();
  const own = new Map(places.map(({ place, estimate }) => [place.key, estimate]));
  const compared = found.local.map((local) => ({ ...local, own: own.get(local.place) ?? null }));
  const total = (of: 'tested' | 'resistant') => compared.reduce((sum, one) => sum + (one.own?.[of] ?? 0), 0);
  const overall = total('resistant') / total('tested');
  return new Map(
    compared.map(({ place, pattern, tested, resistant, own }) => {
      if (pattern === 'no sign' || pattern === 'too little tested') return [place, pattern] as const;
      // The counts of the finding are those of the place and its neighbours together.
      const around = own ? (resistant - own.resistant) / (tested - own.tested) : Number.NaN;
      if (!own || Number.isNaN(around)) return [place, 'too little tested'] as const;
      return [place, patternOf(own.share > overall, around > overall)] as const;
    }),
  );
}

function patternOf(isRaised: boolean, isAroundRaised: boolean): ClusterPattern {
  if (isRaised) return isAroundRaised ? 'raised, neighbours raised too' : 'stands out alone';
  return isAroundRaised ? 'lower than around it' : 'lower, neighbours lower';
}
