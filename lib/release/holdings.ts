import { isTested, senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import type { Holdings } from '@/lib/disclosure/audit/insiders';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import type { ReleasedCell, Results } from '@/lib/disclosure/types';
import type { CellEntry } from './cell-finder';

/**
 * What each sender with a whole-plant result in a withheld cell has in every cell of its pair, for the insider pass.
 *
 * @param facts those about several groups among them
 * @param cellsOf the cells in which a fact counts (`createCellFinder`)
 * @returns by pair (`species|group`), sender and cell (`cellKeyText`)
 */
export function holdingsOf(
  facts: readonly Fact[],
  cells: readonly ReleasedCell[],
  cellsOf: (fact: Fact) => readonly CellEntry[],
): Map<string, Holdings> {
  const looks = new Map(cells.map((cell) => [cellKeyText(cell), cell.status]));
  const keys = facts
    .filter((fact) => fact.assay === 'whole plant' && isTested(fact))
    .map((fact) => ({
      fact,
      sender: `${fact.species}|${fact.group}|${senderOf(fact)}`,
      own: cellsOf(fact).filter(({ text }) => looks.has(text)),
    }));
  const inside = new Set(
    keys
      .filter(({ own }) => own.some(({ text }) => looks.get(text) === 'withheld'))
      .map(({ sender }) => sender),
  );
  const holdings = new Map<string, Map<string, Map<string, Results>>>();
  for (const { fact, sender, own } of keys) {
    if (!inside.has(sender)) continue;
    const pair = inner(holdings, `${fact.species}|${fact.group}`);
    const held = inner(pair, senderOf(fact));
    for (const {
      text,
      fact: { result },
    } of own) {
      const [resistant, someSurvivors, susceptible] = held.get(text) ?? [0, 0, 0];
      held.set(text, [
        resistant + (result === 'resistant' ? 1 : 0),
        someSurvivors + (result === 'some survivors' ? 1 : 0),
        susceptible + (result === 'susceptible' ? 1 : 0),
      ]);
    }
  }
  return holdings;
}

function inner<K, V extends Map<unknown, unknown>>(map: Map<K, V>, key: K): V {
  const found = map.get(key) ?? (new Map() as V);
  map.set(key, found);
  return found;
}
