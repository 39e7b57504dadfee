import type { Cell } from '@/lib/cube/types';
import type { PlaceTree } from '../places';
import { loadSolver } from '../solver';
import type { AuditBreach, AuditReport, Policy, ReleasedCube } from '../types';
import { examine } from './examine';
import { readRelease } from './knowledge';

export interface AuditInput {
  cube: ReleasedCube;
  /** How counties, districts and states lie in each other: public. */
  places: PlaceTree;
  /** Private cells of the ladder. Without them exactness is judged, with them also what primary cells need. */
  truth?: readonly Cell[];
  /** The policy with its private limit; wanted beside `truth`. */
  policy?: Policy;
}

/**
 * Attacks a release with all its tables at once, as a reader would who can do linear programming, and reports every
 * cell that is known too well. Shares no code with the gate.
 *
 * Without truth: a withheld cell of which a measure has one value only is `exact` (except where a published 0, or all of
 * n, of a larger cell or status says so: that is accepted); a status "confirmed" about withheld cells must leave one and
 * two resistant possible. With truth: a published cell that the primary rule forbids is `exact`; a primary cell with a
 * range inside its protection is `too narrow`; a truth outside the range is a `contradiction`, as are sums that
 * disagree (then low > high).
 *
 * @throws Error where a truth is given without its policy
 * @cost linear programs by connected component of withheld cells; about a second for 320 counties × 12 seasons a pair
 */
export async function auditRelease({ cube, places, truth, policy }: AuditInput): Promise<AuditReport> {
  if (truth && !policy)
    throw new Error('an audit with the truth needs the policy too: give both or neither.');
  const secret = truth && policy ? { cells: truth, dominanceShare: policy.dominanceShare } : undefined;
  const highs = await loadSolver();
  const breaches: AuditBreach[] = [];
  let programs = 0;
  for (const known of readRelease(cube, places)) {
    const found = examine(highs, known, cube, secret);
    breaches.push(...found.breaches);
    programs += found.programs;
  }
  const withheldCells = cube.cells.filter(({ status }) => status === 'withheld').length;
  return {
    clean: breaches.length === 0,
    withheldCells,
    publishedCells: cube.cells.length - withheldCells,
    programs,
    breaches,
  };
}
