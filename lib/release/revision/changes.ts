import type { Fact } from '@/lib/cube/types';
import type { Move } from '../batch-rule';
import { byKey, isSame, keyOf } from './same-fact';
import type { Waiting } from './types';

/** What differs for one population, group and assay, and the unit with which it enters or waits. */
export interface Change extends Move {
  unit: string;
}

/** All that differs between two states of the facts, by the key of the fact; units that share a population are one. */
export function changesBetween(before: readonly Fact[], after: readonly Fact[]): Map<string, Change> {
  const earlier = byKey(before);
  const later = byKey(after);
  const changes = new Map<string, Change>();
  const root = new Map<string, string>();
  const find = (unit: string): string => {
    let at = unit;
    while (root.has(at)) at = root.get(at)!;
    return at;
  };
  for (const key of new Set([...earlier.keys(), ...later.keys()])) {
    const move = { before: earlier.get(key) ?? null, after: later.get(key) ?? null };
    if (isSame(move.before, move.after)) continue;
    const [one, other] = [move.before ?? move.after, move.after ?? move.before]
      .map((fact) => find(unitOf(fact!)))
      .sort();
    if (one !== other) root.set(other!, one!);
    changes.set(key, { ...move, unit: unitOf((move.after ?? move.before)!) });
  }
  for (const change of changes.values()) change.unit = find(change.unit);
  return changes;
}

/** The facts that a release is made of when some units wait: theirs stay as they were. */
export function settled(
  facts: readonly Fact[],
  changes: ReadonlyMap<string, Change>,
  waits: ReadonlyMap<string, unknown>,
): Fact[] {
  const asBefore = (fact: Fact): Fact[] => {
    const change = changes.get(keyOf(fact));
    if (!change || !waits.has(change.unit)) return [fact];
    return change.before ? [change.before] : [];
  };
  const staying = [...changes.values()].filter(({ after, unit }) => after === null && waits.has(unit));
  return [...facts.flatMap(asBefore), ...staying.map(({ before }) => before!)];
}

/** The changes of the units that wait, counted by county, season, species and group, in that order. */
export function waitingOf(
  changes: ReadonlyMap<string, Change>,
  waits: ReadonlyMap<string, Waiting['why']>,
): Waiting[] {
  const found = new Map<string, Waiting>();
  for (const { before, after, unit } of changes.values()) {
    const why = waits.get(unit);
    if (!why) continue;
    const { county, season, species, group } = (after ?? before)!;
    const key = unitOf((after ?? before)!);
    const entry = found.get(key) ?? {
      ...{ county, season, species, group, entering: 0, leaving: 0, corrected: 0, why },
    };
    entry[before === null ? 'entering' : after === null ? 'leaving' : 'corrected'] += 1;
    found.set(key, entry);
  }
  return [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, entry]) => entry);
}

function unitOf({ county, season, species, group, assay, design }: Fact): string {
  return `${county}|${season}|${species}|${group}|${assay}|${design}`;
}
