import type { Cell, Fact } from '@/lib/cube/types';
import type { Joinable } from '@/lib/disclosure/areas/district-links';
import { drawAreas } from '@/lib/disclosure/areas/draw-areas';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { type LadderQuestion, ladder } from '@/lib/disclosure/ladder';
import type { PlaceTree } from '@/lib/disclosure/places';
import { type GateFigures, PairUnprotected, protectWithFigures } from '@/lib/disclosure/protect';
import { standingOf } from '@/lib/disclosure/standing';
import type { AuditReport, ReleasedCube } from '@/lib/disclosure/types';
import { unionFromFacts } from '@/lib/disclosure/union';
import { fixedWindows } from '@/lib/disclosure/windows';
import type { AreaTable } from '@/lib/geography/types';
import { ladderCells } from './ladder-cells';
import { chooseRevision, type PastRelease, type Revision } from './revision';

export interface GuardInput {
  /** With consent only. */
  facts: readonly Fact[];
  region: PlaceTree & Joinable;
  question: LadderQuestion;
  keptAreas: readonly AreaTable[];
  past?: readonly PastRelease[];
  onStage?: (stage: 'cells' | 'gate' | 'audit') => void;
}

export interface Guarded {
  cube: ReleasedCube;
  audit: AuditReport;
  figures: GateFigures[];
  revision: Revision;
}

/** Earlier releases leave no safe way to make this one. Its words name cells: for the staff only. */
export class ReleaseRefused extends Error {}

/**
 * Makes a release safe beside all earlier ones: chooses what may enter, withholds, audits all releases together, and where
 * a pair of species and group is not clean, tries again with less said: first no status about its withheld cells, then
 * none of its late changes.
 *
 * @returns the last attempt; its audit is not clean where nothing helped
 * @throws ReleaseRefused where places were recoded so that earlier releases could be subtracted, or a pair cannot be protected
 */
export async function guard(input: GuardInput): Promise<Guarded> {
  const { region, past = [], onStage = () => {} } = input;
  const { policy } = input.question;
  const earlier = past.map((release) => ({ ...release, truth: cellsOfPast(release, policy) }));
  const standing = standingOf(earlier, policy);
  const halted = new Set<string>();
  const silent = new Set<string>();
  for (;;) {
    onStage('cells');
    const { revision, cells, areas } = prepare(input, halted);
    onStage('gate');
    const unionOf = unionFromFacts(revision.facts, region);
    const gate = { cells, places: region, areas, ...input.question, unionOf, standing, silent };
    let cube: ReleasedCube;
    let figures: GateFigures[];
    try {
      ({ cube, figures } = await protectWithFigures(gate));
    } catch (error) {
      if (!(error instanceof PairUnprotected) || past.length === 0) throw error;
      if (!halt(halted, error)) throw new ReleaseRefused(error.message);
      continue;
    }
    onStage('audit');
    const audit = await auditRelease({ cube, places: region, truth: cells, policy, earlier });
    if (!calm(audit, silent, past.length > 0 ? halted : null)) return { cube, audit, figures, revision };
  }
}

/** Lets wait what changes a cell, or, where that was tried, all of its pair. @returns false where that was tried too */
function halt(
  halted: Set<string>,
  { species, group, cell }: { species: string; group: number; cell?: string },
): boolean {
  const pair = `${species}|${group}`;
  const next = [cell, pair].find((key) => key !== undefined && !halted.has(key) && !halted.has(pair));
  if (next !== undefined) halted.add(next);
  return next !== undefined;
}

/** After an audit that is not clean: less is said of each pair with a breach. @returns false where nothing more can be done */
function calm({ breaches }: AuditReport, silent: Set<string>, halted: Set<string> | null): boolean {
  const pairs = new Map(breaches.map(({ pair }) => [`${pair?.species}|${pair?.group}`, pair!]));
  let isCalmer = false;
  for (const [key, pair] of pairs) {
    if (!silent.has(key)) isCalmer = Boolean(silent.add(key));
    else if (halted) {
      const own = breaches.filter(
        (one) => one.pair?.species === pair.species && one.pair.group === pair.group,
      );
      for (const cell of new Set(own.map(({ key: text }) => text)))
        isCalmer = halt(halted, { ...pair, cell }) || isCalmer;
    }
  }
  return isCalmer;
}

/** The private cells of an earlier release, as they stood. */
function cellsOfPast({ cube, facts, places }: PastRelease, policy: LadderQuestion['policy']): Cell[] {
  const { firstSeason, closedSeasons, openSeason, areas } = cube;
  return ladderCells(facts, ladder({ policy, firstSeason, closedSeasons, openSeason }), places, areas);
}

/** What may enter the next release and what waits, by the batch rule alone: the audit may let more wait. */
export function revisionOf(
  { facts, region, question, keptAreas, past = [] }: GuardInput,
  halted: ReadonlySet<string> = new Set(),
): Revision {
  const { policy, firstSeason, closedSeasons } = question;
  const windows = fixedWindows(firstSeason, closedSeasons, policy.windowLength);
  const released = windows.filter(({ first }) => keptAreas.some((table) => table.first === first));
  const areas = drawAreas({ facts, region, windows: released, policy, kept: keptAreas });
  return chooseRevision({ facts, past, question, places: region, areas, halted });
}

function prepare(input: GuardInput, halted: ReadonlySet<string>) {
  const { region, question, keptAreas } = input;
  const { policy, firstSeason, closedSeasons } = question;
  const revision = revisionOf(input, halted);
  if (revision.stuck.length > 0) {
    const { release, cell, reason } = revision.stuck[0]!;
    throw new ReleaseRefused(
      `${revision.stuck.length} cells of earlier releases would change although nothing enters, because places are ` +
        `coded otherwise now; the first is ${cell.placeKind} ${cell.place} of release ${release} (${reason})`,
    );
  }
  const windows = fixedWindows(firstSeason, closedSeasons, policy.windowLength);
  const areas = drawAreas({ facts: revision.facts, region, windows, policy, kept: keptAreas });
  return { revision, areas, cells: ladderCells(revision.facts, ladder(question), region, areas) };
}
