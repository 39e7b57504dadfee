import type { ClusteringLine, SpeedLine } from '@/db/repositories/analysis-overview';
import type { ClusteringVerdict } from '@/lib/findings/types';
import type { PlaceKey } from '@/lib/vocabulary/terms';

/** What an analysis says of its maps and speeds. */
export interface AnalysisLines {
  maps: readonly ClusteringLine[];
  speeds: readonly SpeedLine[];
}

/** A map whose verdict is another one, or whose cluster has other places. */
export interface ClusteringChange {
  map: ClusteringLine;
  /** null where the analysis before had no such map. */
  before: ClusteringVerdict | null;
  /** Places that lie together now and did not before, and the other way round. */
  joined: PlaceKey[];
  left: PlaceKey[];
}

/** A speed that is told now and was not, is told no more, or lies outside the interval of before. */
export interface SpeedChange {
  now: SpeedLine;
  before: Pick<SpeedLine, 'speed' | 'low' | 'high'>;
}

export interface AnalysisChanges {
  verdicts: ClusteringChange[];
  /** Clusters that stand in both, with other places. */
  clusters: ClusteringChange[];
  speeds: SpeedChange[];
}

/** What an analysis says otherwise than the one before it, both of the same methods. */
export function analysisChanges(before: AnalysisLines, now: AnalysisLines): AnalysisChanges {
  const maps = new Map(before.maps.map((map) => [mapKey(map), map]));
  const compared = now.maps.map((map): ClusteringChange => {
    const was = maps.get(mapKey(map)) ?? null;
    const [places, earlier] = [new Set(map.where), new Set(was?.where)];
    return {
      map,
      before: was?.verdict ?? null,
      joined: map.where.filter((place) => !earlier.has(place)),
      left: [...earlier].filter((place) => !places.has(place)),
    };
  });
  const isSame = (change: ClusteringChange) => change.before === change.map.verdict;
  const speeds = new Map(before.speeds.map((line) => [speedKey(line), line]));
  return {
    verdicts: compared.filter((change) => !isSame(change)),
    clusters: compared.filter(
      (change) =>
        isSame(change) &&
        change.map.verdict === 'lie together' &&
        change.joined.length + change.left.length > 0,
    ),
    speeds: now.speeds.flatMap((line): SpeedChange[] => {
      const was = speeds.get(speedKey(line));
      return was && isOther(was, line) ? [{ now: line, before: was }] : [];
    }),
  };
}

function isOther(before: SpeedLine, now: SpeedLine): boolean {
  if (before.speed === null || now.speed === null) return before.speed !== now.speed;
  return now.speed < before.low! || now.speed > before.high!;
}

function mapKey({ species, group, period, design }: ClusteringLine): string {
  return [species, group, period.first, period.last, design].join('|');
}

function speedKey({ species, group, design }: SpeedLine): string {
  return [species, group, design].join('|');
}
