import type {
  GlobalResult,
  LocalResult,
  MapAnalysis,
  MapTests,
  ScanCircleResult,
} from '@/lib/findings/analysis/types';
import { LEVEL } from '@/lib/findings/judge-clustering';
import type { MultipleAnalysis } from '@/lib/findings/multiple/types';
import { reassuranceSentence } from '@/lib/findings/spread/reassure-counties';
import type { SimpleSpeeds, SpreadAnalysis } from '@/lib/findings/spread/types';
import { probability } from '@/lib/findings/wording';
import { countyName } from '@/lib/geography/atlas';

/** What the analysis of a map says, and the tests behind it, in lines for staff. */
export function mapLines({ clustering, tests, design }: MapAnalysis, withTests: boolean): string[] {
  const head = `${clustering.sentence}${design === null ? '' : ` (${design} samples only)`}`;
  return [head, ...(withTests && tests ? testLines(tests).map((line) => `    ${line}`) : []), ''];
}

/** What the analysis says of a spread; with `withPlaces` also place by place. */
export function spreadLines(found: SpreadAnalysis, withPlaces: boolean): string[] {
  const { nearness, speed, simpleSpeeds, togetherness, trend, trendBySenders, change, lookNext, design } =
    found;
  const senders = trendBySenders
    ? [
        `Over all populations, allowing for several of one sender: ${probability(trendBySenders.p)} for a trend.`,
      ]
    : [];
  const sentences = [
    nearness.sentence,
    speed.sentence,
    ...simpleLines(simpleSpeeds),
    togetherness.sentence,
    trend.sentence,
    ...senders,
    ...(change ? [change.sentence] : []),
    ...(lookNext ? [lookNext.sentence] : []),
  ];
  const head = design === null ? [] : [`${found.species} × group ${found.group}, ${design} samples only:`];
  const [first = '', ...rest] = [...head, ...sentences];
  return [first, ...rest.map((line) => `    ${line}`), ...(withPlaces ? placeLines(found) : []), ''];
}

/** The simple estimates beside a speed, in lines. */
export function simpleLines(simple: SimpleSpeeds | null): string[] {
  if (!simple) return [];
  const { leastSquares, inverse, throughFirst, leadingEdge, rootArea } = simple;
  const km = (value: number) => `${Math.round(value)} km`;
  return [
    `Descriptive only, for they take a first find for the arrival: least squares ${km(leastSquares)} a season, ` +
      `${inverse === null ? '' : `its inverse ${km(inverse)}, `}through the first find ${km(throughFirst)}, ` +
      `leading edge ${km(leadingEdge)}, root of the area found ${km(rootArea)}.`,
  ];
}

function placeLines({ firstDetections, reassurance, lookNext }: SpreadAnalysis): string[] {
  const clean = reassurance?.counties.filter(({ lastTested }) => lastTested !== null) ?? [];
  const [from, to] = reassurance?.seasons ?? [0, 0];
  const period = from === to ? `${to}` : `${from}–${to}`;
  return [
    ...firstDetections.map(({ sentence }) => `    ${sentence}`),
    ...clean.map(
      (county) => `    ${reassuranceSentence(county, countyName(county.county) ?? county.county, period)}`,
    ),
    ...(lookNext?.places ?? []).slice(0, 20).map(({ place, chance, reason }, i) => {
      const told = chance === null ? '' : `${Math.round(100 * chance)} % `;
      return `    look next ${i + 1}. ${countyName(place) ?? place}: ${told}${reason}`;
    }),
  ];
}

export function multipleLines({ sentences, design }: MultipleAnalysis): string[] {
  const only = design === null ? '' : ` (${design} samples only)`;
  return [`${sentences.together}${only}`, `    ${sentences.growth}${only}`, ''];
}

/** The tests behind the verdict of a map, each by itself, in lines. */
export function testLines(tests: MapTests): string[] {
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
