import type { PublicLoss, Speed } from '@/lib/release/public-loss';
import { commonNameOf } from '@/lib/vocabulary/species';
import { type Pair, periodLabel } from '@/lib/vocabulary/terms';

/** What public findings lose, for the staff at a terminal: sums first, then each difference. */
export function lossWords({ clusterings, detections, speeds }: PublicLoss): string {
  const same = clusterings.filter(({ verdict }) => verdict === 'same').length;
  const lost = clusterings.filter(({ released, exact }) => exact === 'lie together' && released !== exact);
  const gained = clusterings.filter(
    ({ released, exact }) => released === 'lie together' && released !== exact,
  );
  const both = clusterings.filter(
    ({ released, exact }) => released === 'lie together' && exact === 'lie together',
  );
  const sum = (name: 'exact' | 'kept' | 'moved' | 'byDistrict', grain: string) =>
    detections.filter((one) => one.grain === grain).reduce((total, one) => total + one[name], 0);
  const vanished = (grain: string) =>
    detections.filter((one) => one.grain === grain).reduce((total, one) => total + one.vanished.length, 0);
  return [
    `Clustering: ${same} of ${clusterings.length} maps have the same verdict.`,
    ...otherVerdicts(clusterings),
    ...lost.map(
      ({ period, released, ...pair }) =>
        `  vanishes: ${name(pair)}, ${periodLabel(period)}: ${released ?? 'not told'}`,
    ),
    ...gained.map(({ period, ...pair }) => `  only in public: ${name(pair)}, ${periodLabel(period)}`),
    ...both.map(
      ({ period, counties, ...pair }) =>
        `  in both: ${name(pair)}, ${periodLabel(period)}: of ${counties.exact} counties that lie together ${counties.shared} are named in public, with ${counties.released - counties.shared} others`,
    ),
    `First finds by county: ${sum('exact', 'county')}; told of the county ${sum('kept', 'county')}, at another time ${sum('moved', 'county')}, of its district alone ${sum('byDistrict', 'county')}, not at all ${vanished('county')}.`,
    `First finds by district: ${sum('exact', 'district')}; told ${sum('kept', 'district')}, at another time ${sum('moved', 'district')}, not at all ${vanished('district')}.`,
    speeds.length === 0
      ? 'Speed: none is told, in public or by exact counts.'
      : 'Speed, km a season with 95 % interval:',
    ...speeds.map(
      ({ released, exact, agree, ...pair }) =>
        `  ${name(pair)}: public ${speed(released)}, exact counts ${speed(exact)}${agree === false ? ': these do not agree' : ''}`,
    ),
  ].join('\n');
}

/** How many maps differ in which way, the most first. */
function otherVerdicts(clusterings: PublicLoss['clusterings']): string[] {
  const ways = new Map<string, number>();
  for (const { verdict, released, exact } of clusterings) {
    if (verdict === 'same') continue;
    const way = `in public ${released ?? 'not told'}, by exact counts ${exact}`;
    ways.set(way, (ways.get(way) ?? 0) + 1);
  }
  return [...ways].sort(([, a], [, b]) => b - a).map(([way, maps]) => `  ${maps} ${way}`);
}

function name({ species, group }: Pair): string {
  return `${commonNameOf(species)} × group ${group}`;
}

function speed(told: Speed | null): string {
  return told ? `${told.speed.toFixed(0)} (${told.low.toFixed(0)}–${told.high.toFixed(0)})` : 'not told';
}
