import type { Cell } from '@/lib/cube/types';
import type { PlaceTree } from '../places';
import { loadSolver } from '../solver';
import type { AuditBreach, AuditReport, Policy, ReleasedCube } from '../types';
import { examine } from './examine';
import { unexplained } from './explained';
import { type AuditedRelease, joinReleases } from './join';

export interface AuditInput {
  cube: ReleasedCube;
  /** How counties, districts and states lie in each other: public. */
  places: PlaceTree;
  /** Private cells of the ladder. Without them exactness is judged, with them also what primary cells need. */
  truth?: readonly Cell[];
  /** The policy with its private limit; wanted beside `truth`. */
  policy?: Policy;
  /** Every release so far with its truth, oldest first; withdrawn ones too, since what was read cannot be called back. */
  earlier?: readonly (AuditedRelease & { number: number; truth: readonly Cell[] })[];
  /** Pairs (`species|group`) to look at; all where it is left out. */
  only?: ReadonlySet<string>;
}

/**
 * Attacks a release with all its tables and all earlier releases at once, as a reader would who kept every file and can
 * do linear programming, and reports every cell that is known too well. Shares no code with the gate.
 *
 * Without truth: a withheld cell of which a measure has one value only is `exact` (except where a published 0, or all of
 * n, of a larger cell or status says so: that is accepted); a status "confirmed" about withheld cells must leave one and
 * two resistant possible. With truth: a published cell that the primary rule forbids is `exact`; a primary cell with a
 * range inside its protection is `too narrow`; a truth outside the range is a `contradiction`, as are sums that
 * disagree (then low > high). With earlier releases: what each of them withheld keeps its protection too, though the reader knows
 * by how much every cell has changed since (see `joinReleases`).
 *
 * @throws Error where a truth is given without its policy, or earlier releases without this one's truth
 * @cost linear programs by connected component of withheld cells; about a second for 320 counties × 12 seasons a pair,
 *   and hardly more for each earlier release in which little differs
 */
export async function auditRelease({
  cube,
  places,
  truth,
  policy,
  earlier = [],
  only,
}: AuditInput): Promise<AuditReport> {
  if (truth && !policy)
    throw new Error('an audit with the truth needs the policy too: give both or neither.');
  if (earlier.length > 0 && !truth)
    throw new Error('an audit of several releases needs the truth of each: give that of this one too.');
  const rules = { ...cube.policy, dominanceShare: truth ? policy!.dominanceShare : null };
  const highs = await loadSolver();
  const breaches: AuditBreach[] = [];
  let programs = 0;
  for (const known of joinReleases([...earlier, { number: null, cube, places, truth }], only)) {
    const found = examine(highs, known, rules, truth !== undefined);
    breaches.push(...found.breaches);
    programs += found.programs;
  }
  const told = unexplained(highs, cube, places);
  breaches.push(...told.breaches);
  programs += told.programs;
  const all = [...cube.cells, ...cube.further];
  const withheldCells = all.filter(({ status }) => status === 'withheld').length;
  return {
    clean: breaches.length === 0,
    withheldCells,
    publishedCells: all.length - withheldCells,
    programs,
    breaches,
  };
}
