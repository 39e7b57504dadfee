import type {
  GlobalResult,
  LocalResult,
  MapAnalysis,
  MapTests,
  ScanCircleResult,
} from '@/lib/findings/analysis/types';
import { LEVEL } from '@/lib/findings/judge-clustering';
import { probability } from '@/lib/findings/wording';
import { countyName } from '@/lib/geography/atlas';

/** What the analysis of a map says, and the tests behind it, in lines for staff. */
export function mapLines({ clustering, tests, design }: MapAnalysis, withTests: boolean): string[] {
  const head = `${clustering.sentence}${design === null ? '' : ` (${design} samples only)`}`;
  return [head, ...(withTests && tests ? testLines(tests).map((line) => `    ${line}`) : []), ''];
}

function testLines(tests: MapTests): string[] {
  const { global, local, circles, rates } = tests;
  return [
    'Tests behind it, each by itself (exploratory):',
    `neighbours alike: Moran index of raw shares ${result(global.moran)}; Geary ratio ${result(global.geary)}; ` +
      `constant risk ${result(global.constantRisk)}; join counts ${global.joinCounts ? result(global.joinCounts) : 'found everywhere or nowhere'}`,
    `places flagged of ${tests.places.length}: local Moran ${flagged(local.moran)}, G ${flagged(local.g)}, G* ${flagged(local.gStar)}, ` +
      `local join counts ${local.joinCounts ? flagged(local.joinCounts) : '–'}, exact against any false alarm ${local.minimumP.adjustedP.filter((p) => p <= LEVEL).length}`,
    ...circle('circle, half of the tested', circles.half[0]),
    ...circle('circle, a quarter', circles.quarter[0]),
    ...circle('cylinder over seasons', tests.cylinders?.[0]),
    ...circle('place and season, whatever was tested', tests.seasonPermutation?.[0]),
    `shares between places: mean ${rates.mean.toFixed(3)}, correlation within a place ${rates.correlation.toFixed(3)} (${probability(rates.p)})`,
    `${tests.permutations.toLocaleString('en')} orders, ${tests.replicates} replicates`,
    ...tests.warnings,
  ];
}

function result({ statistic, p }: GlobalResult): string {
  return `${Number(statistic.toPrecision(3))} (${probability(p)})`;
}

function flagged({ adjustedP }: LocalResult): number {
  return adjustedP.filter((p) => p <= LEVEL).length;
}

function circle(name: string, found: ScanCircleResult | undefined): string[] {
  if (!found) return [];
  const { centre, places, radiusKm, seasons, tested, resistant, expected, p, pGumbel } = found;
  const of = tested === null ? `${resistant}` : `${resistant} of ${tested}`;
  const tail = pGumbel === null ? '' : `, Gumbel ${probability(pGumbel)}`;
  return [
    `${name}: ${places.length} places within ${Math.round(radiusKm)} km of ${countyName(centre) ?? `district ${centre}`}, ${seasons[0]}–${seasons[1]}: ` +
      `${of} resistant, ${expected.toFixed(1)} expected (${probability(p)}${tail})`,
  ];
}
