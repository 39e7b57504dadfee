import type { Cell, Fact } from '@/lib/cube/types';
import { drawAreas } from '@/lib/disclosure/areas/draw-areas';
import { ladder } from '@/lib/disclosure/ladder';
import { protect } from '@/lib/disclosure/protect';
import type { Policy, ReleasedCube } from '@/lib/disclosure/types';
import { unionFromFacts } from '@/lib/disclosure/union';
import { fixedWindows } from '@/lib/disclosure/windows';
import type { AreaTable, Region } from '@/lib/geography/types';
import { ladderCells } from '@/lib/release/ladder-cells';
import type { Season } from '@/lib/vocabulary/terms';

export interface GateOnlyInput {
  /** Facts that may enter a release: with consent, and none whose first find waits. */
  facts: readonly Fact[];
  region: Region;
  policy: Policy;
  /** Ascending. */
  closedSeasons: readonly Season[];
  /** Where windows are counted from; the first closed season where it is left out. */
  firstSeason?: Season;
  /** How counties are joined; drawn by the policy where it is left out. */
  areas?: (windows: { first: Season; last: Season }[]) => AreaTable[];
}

export interface GateOnly {
  /** Private. */
  cells: Cell[];
  cube: ReleasedCube;
  policy: Policy;
}

/**
 * What the gate makes of closed seasons under a policy, as if nothing had been released before: neither audited nor
 * stored, so nothing of it may be shown to anybody but the staff.
 *
 * @throws Error where the policy is refused
 */
export async function gateOnly(input: GateOnlyInput): Promise<GateOnly> {
  const { facts, region, policy, closedSeasons } = input;
  const firstSeason = input.firstSeason ?? closedSeasons[0] ?? 0;
  const question = { policy, firstSeason, closedSeasons, openSeason: null };
  const windows = fixedWindows(firstSeason, closedSeasons, policy.windowLength);
  const areas = input.areas?.(windows) ?? drawAreas({ facts, region, windows, policy });
  const cells = ladderCells(facts, ladder(question), region, areas);
  const unionOf = unionFromFacts(facts, region);
  return { cells, policy, cube: await protect({ cells, places: region, areas, ...question, unionOf }) };
}
