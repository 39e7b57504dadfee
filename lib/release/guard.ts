import { multipleFacts } from '@/lib/cube/multiple-facts';
import type { Cell, Fact } from '@/lib/cube/types';
import type { Joinable } from '@/lib/disclosure/areas/district-links';
import { drawAreas } from '@/lib/disclosure/areas/draw-areas';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { auditInsiders } from '@/lib/disclosure/audit/insiders';
import { compareText } from '@/lib/disclosure/cell-order';
import { type LadderQuestion, ladder } from '@/lib/disclosure/ladder';
import type { PlaceTree } from '@/lib/disclosure/places';
import {
  type Gated,
  type GateFigures,
  PairUnprotected,
  protectPairs,
  protectSeveral,
  type SettledPairs,
} from '@/lib/disclosure/protect';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import { standingOf } from '@/lib/disclosure/standing';
import type { AuditReport, InsiderBreach, ReleasedCube, SeasonTable } from '@/lib/disclosure/types';
import { unionFromFacts } from '@/lib/disclosure/union';
import { fixedWindows } from '@/lib/disclosure/windows';
import type { AreaTable } from '@/lib/geography/types';
import type { Pair } from '@/lib/vocabulary/terms';
import { createCellFinder } from './cell-finder';
import { holdingsOf } from './holdings';
import { ladderCells } from './ladder-cells';
import { calm, covering, halt } from './remedies';
import { chooseRevision } from './revision/choose-revision';
import type { PastRelease, Revision } from './revision/types';
import { createShownResults, type ShownIn } from './shown-results';

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
 * none of its late changes. Then each sender with a sample in a withheld cell is asked what it can say of others; where it
 * knows an exact result, more is withheld, until nobody does.
 *
 * @returns the last attempt; its audit is not clean where nothing helped
 * @throws ReleaseRefused where places were recoded so that earlier releases could be subtracted, or a pair cannot be protected
 */
export async function guard(input: GuardInput): Promise<Guarded> {
  const { region, past = [], onStage = () => {} } = input;
  const { policy } = input.question;
  const views = past.map((release) => ({ ...release, cellsOf: finderOfPast(release, policy) }));
  const before = createShownResults(views);
  const earlier = views.map((view) => ({ ...view, truth: cellsOfPast(view, policy, before) }));
  const heldBefore = views.map(({ facts, cube, cellsOf }) =>
    holdingsOf([...facts, ...multipleFacts(facts, before)], [...cube.cells, ...cube.further], cellsOf),
  );
  const halted = new Set<string>();
  const silent = new Set<string>();
  const covered = new Set<string>();
  const standing = covering(standingOf(earlier, policy), covered);
  const insiders: InsiderBreach[] = [];
  let base = prepared(input, halted, onStage);
  let dirty = new Set(base.cells.map(pairKey));
  let made: Gated | null = null;
  let programs = 0;
  let several: Fact[] = [];
  let severalCells: Cell[] = [];
  for (let rounds = 0; ; rounds++) {
    const { revision, areas, unionOf, cellsOf, settled } = base;
    const waiting = halted.size;
    onStage('gate');
    const gate = { places: region, areas, ...input.question, unionOf, standing, silent, insiders };
    try {
      const own = base.cells.filter((cell) => dirty.has(pairKey(cell)));
      made = merged(made, await protectPairs({ ...gate, cells: own, settled }), dirty);
      // What is said of several groups follows from what is shown of each.
      several = multipleFacts(
        revision.facts,
        createShownResults([...views, { cube: made.cube, cellsOf } satisfies ShownIn]),
      );
      severalCells = ladderCells(several, ladder(input.question), region, areas);
      made = await protectSeveral({ ...gate, cells: severalCells }, made);
      for (const cell of severalCells) dirty.add(pairKey(cell));
    } catch (error) {
      if (!(error instanceof PairUnprotected)) throw error;
      if (past.length === 0 || !halt(halted, error)) throw new ReleaseRefused(error.message);
      [base, made] = [prepared(input, halted, onStage), null];
      dirty = new Set(base.cells.map(pairKey));
      continue;
    }
    const { cube, figures } = made;
    const cells = [...base.cells, ...severalCells];
    onStage('audit');
    const found = await auditRelease({ cube, places: region, truth: cells, policy, earlier, only: dirty });
    programs += found.programs;
    const audit = { ...found, programs };
    const isCalmer = calm(audit, silent, past.length > 0 ? halted : null, covered);
    if (!audit.clean && !isCalmer) return { cube, audit, figures, revision };
    let unclean = new Set(audit.breaches.map(({ pair }) => pairKey(pair!)));
    if (audit.clean) {
      const shown = [...cube.cells, ...cube.further];
      const held = [...heldBefore, holdingsOf([...revision.facts, ...several], shown, cellsOf)];
      const now = { number: null, cube, places: region, truth: cells };
      const told = await auditInsiders([...earlier, now], held, policy, dirty);
      programs += told.programs;
      const report = { ...audit, programs };
      if (told.breaches.length === 0) return { cube, audit: report, figures, revision };
      if (rounds >= MOST_ROUNDS)
        return { cube, audit: { ...report, ...withInsiders(told.breaches) }, figures, revision };
      unclean = new Set(told.breaches.map(pairKey));
      // Statuses know nothing of senders: where withholding once was not enough, none is said of withheld cells.
      for (const breach of insiders) if (unclean.has(pairKey(breach))) silent.add(pairKey(breach));
      insiders.push(...told.breaches);
    }
    dirty = unclean;
    if (halted.size === waiting) continue;
    [base, made] = [prepared(input, halted, onStage), null];
    dirty = new Set(base.cells.map(pairKey));
  }
}

/** The pairs that were made anew, and the others as they were. */
function merged(before: Gated | null, after: Gated, anew: ReadonlySet<string>): Gated {
  if (before === null) return after;
  const kept = <T extends Pair>(entries: readonly T[]) =>
    entries.filter((entry) => !anew.has(pairKey(entry)));
  const cube = releasedCubeFromStore({
    ...after.cube,
    cells: [...kept(before.cube.cells), ...after.cube.cells],
    further: [...kept(before.cube.further), ...after.cube.further],
    statuses: [...kept(before.cube.statuses), ...after.cube.statuses],
    seasonTables: [...kept(before.cube.seasonTables), ...after.cube.seasonTables].sort(compareTables),
  });
  const figures = [...kept(before.figures), ...after.figures];
  return { cube, figures: figures.sort((a, b) => compareText(a.species, b.species) || a.group - b.group) };
}

/** By pair, as the gate takes them; inside a pair as they come. */
function compareTables(a: SeasonTable, b: SeasonTable): number {
  return compareText(a.species, b.species) || a.group - b.group;
}

function pairKey({ species, group }: Pair): string {
  return `${species}|${group}`;
}

/** More is withheld for senders so many times at most; the demonstration takes two or three. */
const MOST_ROUNDS = 12;

function withInsiders(breaches: readonly InsiderBreach[]): Pick<AuditReport, 'clean' | 'breaches'> {
  return {
    clean: false,
    breaches: breaches.map(({ species, group, cell, quantity }) => ({
      ...{ cell: `${cell}, to a sender of its own`, key: cell, measure: quantity, low: 0, high: 0 },
      ...{ kind: 'exact', pair: { species, group } },
    })),
  };
}

function questionOfPast({ cube }: PastRelease, policy: LadderQuestion['policy']): LadderQuestion {
  const { firstSeason, closedSeasons, openSeason } = cube;
  return { policy, firstSeason, closedSeasons, openSeason };
}

function finderOfPast(release: PastRelease, policy: LadderQuestion['policy']) {
  return createCellFinder(questionOfPast(release, policy), release.places, release.cube.areas);
}

/** The private cells of an earlier release, as they stood. */
function cellsOfPast(
  release: PastRelease,
  policy: LadderQuestion['policy'],
  isShown: (fact: Fact) => boolean,
): Cell[] {
  const { cube, facts, places } = release;
  const counted = [...facts, ...multipleFacts(facts, isShown)];
  return ladderCells(counted, ladder(questionOfPast(release, policy)), places, cube.areas);
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
  const views = past.map((release) => ({ ...release, cellsOf: finderOfPast(release, policy) }));
  const isShown = createShownResults(views);
  return chooseRevision({ facts, past, question, places: region, areas, isShown, halted });
}

function prepared(input: GuardInput, halted: ReadonlySet<string>, onStage: (stage: 'cells') => void) {
  onStage('cells');
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
  const cells = ladderCells(revision.facts, ladder(question), region, areas);
  const cellsOf = createCellFinder(question, region, areas);
  const settled: SettledPairs = new Map();
  return { revision, areas, cells, cellsOf, settled, unionOf: unionFromFacts(revision.facts, region) };
}
