import type {
  Clustering,
  ClusteringVerdict,
  Finding,
  FirstDetection,
  SpeedOfSpread,
} from '@/lib/findings/types';
import { countiesOf } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { Fips, Pair, Period, PlaceKey, Season } from '@/lib/vocabulary/terms';

/** A map of clustering as a release tells it, beside what the exact counts tell. */
export interface ClusteringLoss extends Pair {
  period: Period;
  /** null where the release has no such finding. */
  released: ClusteringVerdict | null;
  exact: ClusteringVerdict;
  verdict: 'same' | 'other';
  /** Counties of the places that lie together, and those in both. */
  counties: { released: number; exact: number; shared: number };
}

/** What becomes of a pair's first detections at one grain. */
export interface DetectionLoss extends Pair {
  grain: 'county' | 'district';
  /** By exact counts. */
  exact: number;
  /** Told of the same place in an overlapping period. */
  kept: number;
  /** Told of the same place, in another period. */
  moved: number;
  /** Of counties: told only of their district, in an overlapping period. */
  byDistrict: number;
  /** Told of no place that holds it. */
  vanished: { place: PlaceKey; period: Period }[];
}

export interface Speed {
  speed: number;
  low: number;
  high: number;
}

/** A pair's speed of spread, where the release or the exact counts tell one; km a season with 95 % interval. */
export interface SpeedLoss extends Pair {
  released: Speed | null;
  exact: Speed | null;
  /** Whether the two intervals have a speed in common; null where one is not told. */
  agree: boolean | null;
}

export interface PublicLoss {
  clusterings: ClusteringLoss[];
  detections: DetectionLoss[];
  speeds: SpeedLoss[];
}

/**
 * What findings computed from a release's cells lose beside the same functions on exact counts: verdicts on clustering
 * by window and the counties they name, first detections that vanish, speeds that change. Private, since it tells what
 * was withheld. An area or district counts as all of its counties.
 *
 * @param released findings of the release
 * @param exact those of `unwithheldFindings` of what entered it
 * @param region whose counties and districts both are about
 * @returns in the order of `exact`; a pair without a detection or a speed on either side has no line there
 */
export function publicLoss(
  released: readonly Finding[],
  exact: readonly Finding[],
  region: Pick<Region, 'counties'>,
): PublicLoss {
  const pairs = new Map(exact.map(({ species, group }) => [`${species}|${group}`, { species, group }]));
  const of = (findings: readonly Finding[], pair: Pair) =>
    findings.filter(({ species, group }) => species === pair.species && group === pair.group);
  const loss: PublicLoss = { clusterings: [], detections: [], speeds: [] };
  for (const pair of pairs.values()) {
    const [shown, known] = [of(released, pair), of(exact, pair)];
    const maps = shown.filter(isClustering);
    for (const map of known.filter(isClustering)) {
      const twin = maps.find(({ period }) => isSame(period, map.period)) ?? null;
      loss.clusterings.push(clusteringLoss(twin, map, region));
    }
    for (const grain of ['county', 'district'] as const) {
      const found = detectionLoss(pair, grain, shown.filter(isDetection), known.filter(isDetection), region);
      if (found.exact > 0) loss.detections.push(found);
    }
    const speed = speedLoss(pair, shown.find(isSpeed), known.find(isSpeed));
    if (speed.released || speed.exact) loss.speeds.push(speed);
  }
  return loss;
}

function clusteringLoss(
  released: Clustering | null,
  exact: Clustering,
  region: Pick<Region, 'counties'>,
): ClusteringLoss {
  const [shown, known] = [countiesWhere(released, region), countiesWhere(exact, region)];
  const { species, group, period } = exact;
  return {
    ...{ species, group, period, released: released?.verdict ?? null, exact: exact.verdict },
    verdict: released?.verdict === exact.verdict ? 'same' : 'other',
    counties: {
      released: shown.size,
      exact: known.size,
      shared: [...known].filter((fips) => shown.has(fips)).length,
    },
  };
}

/** The counties of the places that lie together. */
export function countiesWhere(map: Clustering | null, { counties }: Pick<Region, 'counties'>): Set<Fips> {
  if (!map) return new Set();
  if (map.grain === 'area') return new Set(map.where.flatMap(countiesOf));
  const places = new Set(map.where);
  return new Set(
    counties.filter(({ district }) => district !== null && places.has(district)).map(({ fips }) => fips),
  );
}

function detectionLoss(
  pair: Pair,
  grain: DetectionLoss['grain'],
  released: readonly FirstDetection[],
  exact: readonly FirstDetection[],
  { counties }: Pick<Region, 'counties'>,
): DetectionLoss {
  const districtOf = new Map(counties.map(({ fips, district }) => [fips, district]));
  const told = (kind: FirstDetection['placeKind'], place: PlaceKey | null | undefined) =>
    released.filter((find) => find.placeKind === kind && find.place === place);
  const known = exact.filter(({ placeKind }) => placeKind === grain);
  const loss: DetectionLoss = {
    ...pair,
    grain,
    exact: known.length,
    kept: 0,
    moved: 0,
    byDistrict: 0,
    vanished: [],
  };
  for (const { place, period } of known) {
    const own = told(grain, place);
    const above = grain === 'county' ? told('district', districtOf.get(place)) : [];
    if (own.some((find) => overlap(find.period, period))) loss.kept += 1;
    else if (own.length > 0) loss.moved += 1;
    else if (above.some((find) => overlap(find.period, period))) loss.byDistrict += 1;
    else loss.vanished.push({ place, period });
  }
  return loss;
}

function speedLoss(pair: Pair, released?: SpeedOfSpread, exact?: SpeedOfSpread): SpeedLoss {
  const [shown, known] = [told(released), told(exact)];
  const agree = shown && known ? shown.low <= known.high && known.low <= shown.high : null;
  return { ...pair, released: shown, exact: known, agree };
}

function told(finding: SpeedOfSpread | undefined): Speed | null {
  const { speed = null, low = null, high = null } = finding ?? {};
  return speed === null || low === null || high === null ? null : { speed, low, high };
}

function isClustering(finding: Finding): finding is Clustering {
  return finding.kind === 'clustering';
}

function isDetection(finding: Finding): finding is FirstDetection {
  return finding.kind === 'first detection';
}

function isSpeed(finding: Finding): finding is SpeedOfSpread {
  return finding.kind === 'speed';
}

function isSame(a: { first: Season; last: Season }, b: { first: Season; last: Season }): boolean {
  return a.first === b.first && a.last === b.last;
}

function overlap(a: Period, b: Period): boolean {
  return a.first <= b.last && b.first <= a.last;
}
