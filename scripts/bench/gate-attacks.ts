import type { Fact } from '@/lib/cube/types';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import { guard } from '@/lib/release/guard';
import type { PastRelease } from '@/lib/release/revision/types';
import { Random } from '@/lib/stats/random';
import type { Benchmark } from '../bench';
import { scenarioRegion } from '../scenario/sizes';
import { madeFacts } from '../support/made-facts';
import { startSteps } from '../support/steps';

const FIRST = 2015;
const SEEDS = 20;
const MEANS = [0.4, 2, 8] as const;
const CLOSED = [FIRST + 3, FIRST + 4, FIRST + 5] as const;

/** Promise P1 at full size: what a reader of all releases can work out. */
export const gateAttacks: Benchmark = {
  about: `Attacks on ${SEEDS} invented programmes (66 counties, two groups) at each of ${MEANS.join(', ')} populations a county and season: ${CLOSED.length} releases each with late, corrected and withdrawn samples between; exact counts, ranges inside their protection, and contradictions are counted`,
  async run() {
    const steps = startSteps();
    const region = scenarioRegion('small');
    for (const mean of MEANS) {
      await steps.run(`mean ${mean}`, async (detail) => {
        const sum = { releases: 0, withheld: 0, breaches: 0, exact: 0, programs: 0, waiting: 0 };
        for (let seed = 1; seed <= SEEDS; seed++) {
          const plan = { seed, firstSeason: FIRST, seasons: 6, mean, share: 0.35, groups: [9, 2] };
          let facts = madeFacts(region.counties, plan);
          const past: PastRelease[] = [];
          for (const [r, closed] of CLOSED.entries()) {
            facts = r === 0 ? facts : revised(facts, new Random(seed * 100 + r));
            const known = facts.filter(({ season, publicShare }) => publicShare && season <= closed);
            const closedSeasons = Array.from({ length: closed - FIRST + 1 }, (_, s) => FIRST + s);
            const question = { policy: DEFAULT_POLICY, firstSeason: FIRST, closedSeasons, openSeason: null };
            const keptAreas = distinct(past.flatMap(({ cube }) => cube.areas));
            const made = await guard({ facts: known, region, question, keptAreas, past: [...past] });
            // What is public, read back, and attacked by a reader who knows nothing else.
            const read = releasedCubeFromStore(JSON.parse(JSON.stringify(made.cube)) as typeof made.cube);
            const attack = await auditRelease({ cube: read, places: region });
            sum.releases += 1;
            sum.withheld += made.audit.withheldCells;
            sum.breaches += made.audit.breaches.length;
            sum.exact += attack.breaches.length;
            sum.programs += made.audit.programs + attack.programs;
            sum.waiting += made.revision.waiting.length;
            past.push({ number: r + 1, cube: made.cube, places: region, facts: made.revision.facts });
          }
        }
        detail(
          `${sum.releases} releases, ${sum.withheld} withheld cells, ${sum.breaches} breaches with all releases and truths, ` +
            `${sum.exact} exact by one release alone, ${sum.waiting} units waited, ${sum.programs} programs`,
        );
      });
    }
    return [...steps.done];
  },
};

function revised(facts: readonly Fact[], random: Random): Fact[] {
  return facts.flatMap((fact): Fact[] => {
    const draw = random.next() / 2 ** 32;
    if (draw < 0.02) return [{ ...fact, publicShare: false }];
    if (draw < 0.04) return [{ ...fact, result: fact.result === 'resistant' ? 'susceptible' : 'resistant' }];
    if (draw < 0.05) return [{ ...fact, crop: 'sunflower' }];
    if (draw > 0.95) return [fact, { ...fact, population: `${fact.population}+${random.next()}` }];
    return [fact];
  });
}

/** The first table of each species and window: areas keep their counties. */
function distinct<T extends { species: string; first: number }>(tables: readonly T[]): T[] {
  return [
    ...new Map([...tables].reverse().map((table) => [`${table.species}|${table.first}`, table])).values(),
  ];
}
