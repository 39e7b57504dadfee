import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { CellKey } from '@/lib/cube/types';
import { changesBetween, settled, waitingOf } from './changes';
import { createJudge } from './judge';
import type { Revision, RevisionQuestion, Waiting } from './types';

/**
 * Chooses which late samples, corrections and withdrawals enter a release: those that leave every cell of every earlier
 * release, shown or withheld, either as it was or changed by a batch that may be shown by itself (`shortfallOf`). So a reader
 * may know every difference between two releases and learns nothing that the primary rule forbids. A cell that was shown
 * must still be fit to be shown, one that was withheld must not vanish, nor shrink where the primary rule withheld it.
 *
 * What fails waits in whole units: all changes of a county × season × species × group, with those of other units that share a
 * population. Units of the finest failing cells wait first, then all is judged again, until nothing fails. This is safe and
 * always the same, not the largest choice there is.
 *
 * @cost O(cells touched by changes) a round, and one pass over the facts of the pairs that change
 */
export function chooseRevision(asked: RevisionQuestion): Revision {
  const last = asked.past.at(-1);
  if (!last) return { facts: [...asked.facts], waiting: [], stuck: [] };
  const changes = changesBetween(last.facts, asked.facts);
  const waits = new Map<string, Waiting['why']>();
  const told = new Set(asked.past.flatMap(({ cube }) => [...cube.closedSeasons, cube.openSeason]));
  for (const { unit, before, after } of changes.values()) {
    const { species, group } = (after ?? before)!;
    const isTold = [before, after].some((fact) => fact && told.has(fact.season));
    const isHalted = [group, SEVERAL_GROUPS].some((one) => asked.halted?.has(`${species}|${one}`));
    if (isTold && isHalted) waits.set(unit, { reason: 'audit', cell: null });
  }
  const judge = createJudge(asked, changes);
  for (;;) {
    const failing = judge(waits);
    const finest = Math.min(
      ...failing.filter(({ units }) => units.size > 0).map(({ cell }) => fineness(cell)),
    );
    if (finest === Infinity) {
      const stuck = failing.map(({ release, cell, reason }) => ({ release, cell, reason }));
      return { facts: settled(asked.facts, changes, waits), waiting: waitingOf(changes, waits), stuck };
    }
    for (const { cell, reason, units } of failing) {
      if (fineness(cell) !== finest) continue;
      for (const unit of units) if (!waits.has(unit)) waits.set(unit, { reason, cell });
    }
  }
}

/** Finest first: counties and areas, districts, designs and assays, states, the region; seasons before windows. */
function fineness({ placeKind, design, part, assay, period }: CellKey): number {
  const kind = { county: 0, area: 0, district: 1, state: 3, region: 4 }[placeKind];
  const table = kind > 1 && (design !== null || part || assay !== 'whole plant') ? 2 : kind;
  return table * 2 + (period.last > period.first ? 1 : 0);
}
