import type { Highs } from 'highs';
import type { Cell } from '@/lib/cube/types';
import type { AuditBreach, ReleasedCell, ReleasedCube } from '../types';
import { hunt } from './hunt';
import { type Knowledge, labelOf } from './knowledge';
import { propagate } from './linear-system';
import { questionsOf, type Secrets } from './questions';
import { type ReaderSystem, readerSystem } from './reader-system';

/** The private side of an audit. */
export interface Truth {
  cells: readonly Cell[];
  dominanceShare: number;
}

/** Attacks one pair: reads, propagates, then hunts by linear programs. Labels of breaches name the pair. */
export function examine(
  highs: Highs,
  known: Knowledge,
  cube: ReleasedCube,
  truth?: Truth,
): { breaches: AuditBreach[]; programs: number } {
  const { species, group } = [...known.cells, ...known.statuses][0]!;
  const named = (breaches: AuditBreach[]) =>
    breaches.map((breach) => ({ ...breach, cell: `${species} × group ${group}, ${breach.cell}` }));
  const contradiction: AuditBreach = {
    cell: 'sums of the whole pair',
    measure: 'tested',
    low: 1,
    high: 0,
    kind: 'contradiction',
  };
  const secrets = truth ? secretsOf(known, cube.policy, truth) : null;
  const open = known.cells.flatMap((cell, i) => shownTooMuch(cell, secrets?.get(i), secrets !== null));
  const system = readerSystem(known, cube.windows);
  const holds = secrets === null || fitsTruth(system, secrets);
  if (!propagate(system)) return { breaches: named([...open, contradiction]), programs: 0 };
  const found = hunt(highs, system, questionsOf(known, system, cube.policy, secrets), !holds);
  const breaches = [...open, ...found.breaches, ...(found.contradiction ? [contradiction] : [])];
  return { breaches: named(breaches), programs: found.programs };
}

/** Private counts of the cells, and the auditor's own reading of the primary rule. */
function secretsOf(known: Knowledge, policy: ReleasedCube['policy'], truth: Truth): Secrets {
  const { species, group } = known.cells[0] ?? { species: '', group: 0 };
  const truths = new Map(
    truth.cells
      .filter((cell) => cell.species === species && cell.group === group)
      .map((cell) => [labelOf(cell), cell] as const),
  );
  const secrets = new Map<number, { cell: (typeof truth.cells)[number]; primary: boolean }>();
  for (const [i, shown] of known.cells.entries()) {
    const cell = truths.get(labelOf(shown));
    if (!cell) continue;
    const { tested, resistant, operations, largestOperation } = cell;
    const fewOrOneLarge =
      tested < policy.minimumTested ||
      operations < policy.minimumOperations ||
      largestOperation - truth.dominanceShare * tested > 1e-9;
    const alike = resistant === 0 || tested - resistant <= 1;
    secrets.set(i, { cell, primary: fewOrOneLarge || (alike && operations < policy.unanimousOperations) });
  }
  return secrets;
}

/** Breaches that need no arithmetic: forbidden cells shown, withheld ones with something attached, wrong counts. */
function shownTooMuch(
  shown: ReleasedCell,
  secret: ReturnType<Secrets['get']>,
  hasTruth: boolean,
): AuditBreach[] {
  const { counts, receipt, actives, placeKind } = shown;
  const breach = (kind: AuditBreach['kind'], low: number, high: number): AuditBreach[] => [
    { cell: labelOf(shown), measure: 'tested', low, high, kind },
  ];
  if (hasTruth && !secret) return breach('contradiction', 0, 0);
  if (counts === null)
    return receipt || actives.length > 0 ? breach('too narrow', 1, receipt?.testable ?? 1) : [];
  if (receipt && placeKind !== 'state' && placeKind !== 'region')
    return breach('too narrow', counts.tested, receipt.testable);
  if (!secret) return [];
  const { tested, resistant, someSurvivors } = secret.cell;
  if (counts.tested !== tested || counts.resistant !== resistant || counts.someSurvivors !== someSurvivors)
    return breach('contradiction', counts.tested, counts.tested);
  return secret.primary ? breach('exact', tested, tested) : [];
}

/** True where the private counts satisfy all that the reader knows: then they lie in every range. */
function fitsTruth(system: ReaderSystem, secrets: Secrets): boolean {
  const point = new Float64Array(system.lower.length);
  for (const { cells, column } of system.suspects) {
    for (const [i, cell] of cells.entries()) {
      const secret = secrets.get(cell)?.cell;
      if (!secret) return false;
      const at = i === 0 ? column : column + 3;
      point[at]! += secret.resistant;
      point[at + 1]! += secret.someSurvivors;
      point[at + 2]! += secret.susceptible;
    }
  }
  return system.rows.every(({ columns, coefficients, low, high }) => {
    const value = columns.reduce((sum, column, i) => sum + coefficients[i]! * point[column]!, 0);
    return value >= low - 1e-9 && value <= high + 1e-9;
  });
}
