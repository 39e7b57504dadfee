import type { Fact } from '@/lib/cube/types';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { type GuardInput, guard } from '@/lib/release/guard';
import { countWaiting } from '@/lib/release/revision/count-waiting';
import type { PastRelease } from '@/lib/release/revision/types';
import type { Benchmark } from '../bench';
import { scenarioFacts } from '../support/scenario-facts';
import { type Steps, startSteps } from '../support/steps';
import { benchGateLoss } from './gate-loss';

/** What the gate and the audit of all releases cost in time, and what the gate costs in information. */
export const gate: Benchmark = {
  about:
    'Gate, audit and insider pass on the demonstration: one release of all seasons; three releases in a row, each with a season more and two in a hundred earlier results late or corrected; and what the gate withholds',
  async run() {
    const steps = startSteps();
    await timeReleases(steps);
    await benchGateLoss(steps);
    return [...steps.done];
  },
};

async function timeReleases(steps: Steps): Promise<void> {
  const { region, facts, closedSeasons } = scenarioFacts('default', 1);
  const shared = facts.filter(({ publicShare }) => publicShare);
  const firstSeason = closedSeasons[0]!;
  const make = (name: string, input: Pick<GuardInput, 'facts' | 'keptAreas' | 'past'>, closed: number[]) =>
    steps.run(name, async (detail) => {
      const newest = Math.max(...input.facts.map(({ season }) => season));
      const openSeason = newest > closed.at(-1)! ? newest : null;
      const question = { policy: DEFAULT_POLICY, firstSeason, closedSeasons: closed, openSeason };
      const stages = new Map<string, number>();
      let [stage, since] = ['', performance.now()];
      const onStage = (next: string) => {
        if (stage !== '') stages.set(stage, (stages.get(stage) ?? 0) + performance.now() - since);
        [stage, since] = [next, performance.now()];
      };
      const made = await guard({ ...input, region, question, onStage });
      onStage('');
      const seconds = [...stages].map(([what, ms]) => `${what} ${(ms / 1000).toFixed(1)} s`).join(', ');
      const late = countWaiting(made.revision.waiting);
      detail(
        `${made.audit.breaches.length === 0 ? 'clean' : `${made.audit.breaches.length} breaches`}, ${made.cube.cells.length} cells, ` +
          `${made.audit.withheldCells} withheld, ${made.audit.programs} programs, ${late} results wait, ${seconds}`,
      );
      return made;
    });
  await make('one release of all seasons', { facts: shared, keptAreas: [] }, closedSeasons);
  const past: PastRelease[] = [];
  for (const number of [1, 2, 3]) {
    const closed = closedSeasons.slice(0, closedSeasons.length - 3 + number);
    const known = revisedFacts(shared, number).filter(({ season }) => season <= closed.at(-1)! + 1);
    const tables = past.flatMap(({ cube }) => cube.areas).reverse();
    const keptAreas = [
      ...new Map(tables.map((table) => [`${table.species}|${table.first}`, table])).values(),
    ];
    const made = await make(
      `release ${number} of three`,
      { facts: known, keptAreas, past: [...past] },
      closed,
    );
    past.push({ number, cube: made.cube, places: region, facts: made.revision.facts });
  }
}

/** Two in a hundred results come late by a release or two, and one in two hundred is corrected in each later release. */
function revisedFacts(facts: readonly Fact[], number: number): Fact[] {
  return facts.flatMap((fact, i): Fact[] => {
    const draw = (Math.imul(i + 1, 0x9e3779b1) >>> 0) / 2 ** 32;
    if (draw < 0.02) return number > 1 + Math.floor(draw * 100) ? [fact] : [];
    if (draw < 0.03 && number > 1 + Math.floor((draw - 0.02) * 200))
      return [{ ...fact, result: fact.result === 'resistant' ? 'susceptible' : 'resistant' }];
    return [fact];
  });
}
