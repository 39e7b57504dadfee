import { drawAreas } from '@/lib/disclosure/areas/draw-areas';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import type { Clustering, Finding, SpeedOfSpread } from '@/lib/findings/types';
import { gateOnly } from '@/lib/jobs/gate-only';
import { publicFindings } from '@/lib/release/public-findings';
import { commonNameOf } from '@/lib/vocabulary/species';
import { type Pair, periodLabel } from '@/lib/vocabulary/terms';
import type { Benchmark } from '../bench';
import { type ScenarioFacts, scenarioFacts } from '../support/scenario-facts';
import { startSteps } from '../support/steps';

const SEED = 20260210;
const PERMUTATIONS = 999;

/** What public findings say of the cluster and the front that were planted in the demonstration. */
export const planted: Benchmark = {
  about:
    'The planted cluster and front of the demonstration as findings from released cells say them (simulated; the gate without the insider pass)',
  async run() {
    const steps = startSteps();
    const ground = await steps.run('simulated facts', () => scenarioFacts('default', 1));
    const { standingCluster, front } = ground.truth;
    await steps.run('the planted cluster', async (detail) => {
      detail(clusterWords(await findingsOf(ground, standingCluster), standingCluster.counties));
    });
    await steps.run('the planted front', async (detail) => {
      detail(speedWords(await findingsOf(ground, front), front.kmPerYear));
    });
    return [...steps.done];
  },
};

async function findingsOf({ facts, region, closedSeasons }: ScenarioFacts, pair: Pair): Promise<Finding[]> {
  const shared = facts.filter(({ publicShare, species }) => publicShare && species === pair.species);
  const { cube } = await gateOnly({
    facts: shared.filter(({ group }) => group === pair.group),
    region,
    policy: DEFAULT_POLICY,
    closedSeasons,
    // One partition serves all groups of a species.
    areas: (windows) => drawAreas({ facts: shared, region, windows, policy: DEFAULT_POLICY }),
  });
  return publicFindings(cube, {
    region,
    seed: SEED,
    permutations: PERMUTATIONS,
    speciesName: commonNameOf,
  });
}

/** The strongest window: of those in which places lie together, the one with the smallest p, then the most counties. */
function clusterWords(findings: readonly Finding[], truth: readonly string[]): string {
  const maps = findings.filter(
    (one): one is Clustering => one.kind === 'clustering' && one.grain === 'area' && one.where.length > 0,
  );
  if (maps.length === 0) return 'none is found';
  const told = maps
    .map((map) => {
      const counties = map.where.flatMap((place) => place.split('+'));
      return { map, counties, shared: counties.filter((fips) => truth.includes(fips)).length };
    })
    .sort((a, b) => (a.map.p ?? 1) - (b.map.p ?? 1) || b.counties.length - a.counties.length);
  return told
    .map(
      ({ map, counties, shared }) =>
        `${periodLabel(map.period)}: p ${map.p}, ${counties.length} counties, ${shared} of them of the ${truth.length} planted`,
    )
    .join('; ');
}

function speedWords(findings: readonly Finding[], truth: number): string {
  const speed = findings.find(
    (one): one is SpeedOfSpread => one.kind === 'speed' && one.grain === 'district',
  );
  if (!speed || speed.speed === null) return 'no speed is told';
  const { low, high } = speed;
  const holds = low! <= truth && truth <= high!;
  return `${speed.speed.toFixed(1)} km a season (${low!.toFixed(1)} to ${high!.toFixed(1)}) by district; planted ${truth}: the interval ${holds ? 'holds it' : 'MISSES it'} and ${low! > 0 ? 'not zero' : 'HOLDS zero'}`;
}
