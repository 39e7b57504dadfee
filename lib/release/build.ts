import type { Fact } from '@/lib/cube/types';
import { drawAreas } from '@/lib/disclosure/areas/draw-areas';
import { auditRelease } from '@/lib/disclosure/audit/audit-release';
import { ladder } from '@/lib/disclosure/ladder';
import { type GateFigures, protectWithFigures } from '@/lib/disclosure/protect';
import type { AuditReport, Policy, ReleasedCube } from '@/lib/disclosure/types';
import { unionFromFacts } from '@/lib/disclosure/union';
import { fixedWindows } from '@/lib/disclosure/windows';
import type { AreaTable, Region } from '@/lib/geography/types';
import { commonNameOf } from '@/lib/vocabulary/species';
import type { Season } from '@/lib/vocabulary/terms';
import { ladderCells } from './ladder-cells';
import { publicObservations } from './observations';
import { pairsOf, publicFindings } from './public-findings';
import type { Pair, ReleaseDraft } from './types';

export interface ReleaseInput {
  /** All facts of the programme; only those with consent enter. */
  facts: readonly Fact[];
  region: Region;
  programme: string;
  simulated: boolean;
  /** ISO day of publication. */
  date: string;
  note: string;
  policy: Policy;
  closedSeasons: readonly Season[];
  /** Where windows are counted from: that of the earlier releases; the first season with results where there is none. */
  firstSeason: Season | null;
  caseDefinition: ReleaseDraft['head']['caseDefinition'];
  /** SPDX identifier; null where the programme chose none. */
  licence: string | null;
  /** Areas of earlier releases: they keep their counties. */
  keptAreas: readonly AreaTable[];
  /** Seed of every permutation test. */
  seed: number;
  /** Permutations of each global test. */
  permutations: number;
  /** Told when a stage begins. */
  onStage?: (stage: 'cells' | 'gate' | 'audit' | 'findings') => void;
}

export interface BuiltRelease {
  draft: ReleaseDraft;
  audit: AuditReport;
  /** Private: how much is withheld for which reason. */
  figures: GateFigures[];
}

/**
 * Builds a release: cells of the ladder → gate → audit → findings from the released cells alone. Whether a release
 * whose audit is not clean is refused is the caller's duty; nothing of it may be shown. Same input, same release.
 *
 * @throws RangeError where no season is closed or no fact may be shown
 */
export async function buildRelease(input: ReleaseInput): Promise<BuiltRelease> {
  const { region, policy, onStage = () => {} } = input;
  const facts = input.facts.filter((fact) => fact.publicShare);
  const question = { policy, ...seasonsOf(facts, input) };

  onStage('cells');
  const { firstSeason, closedSeasons } = question;
  const windows = fixedWindows(firstSeason, closedSeasons, policy.windowLength);
  const areas = drawAreas({ facts, region, windows, policy, kept: input.keptAreas });
  const cells = ladderCells(facts, ladder(question), region, areas);
  onStage('gate');
  const gate = { cells, places: region, areas, ...question, unionOf: unionFromFacts(facts, region) };
  const { cube, figures } = await protectWithFigures(gate);
  onStage('audit');
  const audit = await auditRelease({ cube, places: region, truth: cells, policy });
  onStage('findings');
  const pairs = pairsOf(cube);
  const { seed, permutations } = input;
  const findings = publicFindings(cube, { region, seed, permutations, speciesName: commonNameOf });
  return { draft: { head: headOf(input, cube, pairs), cube, findings }, audit, figures };
}

/** The season under way is the newest with results that is not closed; older unclosed ones wait. */
function seasonsOf(facts: readonly Fact[], { closedSeasons: closed, firstSeason: fixed }: ReleaseInput) {
  const seasons = [...new Set(facts.map((fact) => fact.season))].sort((a, b) => a - b);
  const firstSeason = fixed ?? seasons[0];
  if (firstSeason === undefined)
    throw new RangeError('No result may be shown: none is stored with its sender’s consent.');
  // A closed season without results belongs to its window too.
  const closedSeasons = closed.filter((season) => season >= firstSeason).sort((x, y) => x - y);
  if (closedSeasons.length === 0)
    throw new RangeError('No season is closed: close one first (npm run season -- close YEAR).');
  const newest = seasons.at(-1)!;
  return { firstSeason, closedSeasons, openSeason: newest > closedSeasons.at(-1)! ? newest : null };
}

function headOf(input: ReleaseInput, cube: ReleasedCube, pairs: Pair[]): ReleaseDraft['head'] {
  return {
    date: input.date,
    programme: input.programme,
    region: input.region.name,
    states: input.region.states.map((state) => state.code),
    simulated: input.simulated,
    note: input.note,
    policy: cube.policy,
    caseDefinition: input.caseDefinition,
    licence: input.licence,
    tests: { seed: input.seed, permutations: input.permutations },
    firstSeason: cube.firstSeason,
    closedSeasons: [...cube.closedSeasons],
    openSeason: cube.openSeason,
    windows: cube.windows.map(({ first, last }) => ({ first, last })),
    seasonTables: [...cube.seasonTables],
    areas: [...cube.areas],
    pairs,
    leading: leadingPair(cube, pairs),
  };
}

function leadingPair(cube: ReleasedCube, pairs: readonly Pair[]): Pair | null {
  const published = publicObservations(cube).filter(
    ({ placeKind, period }) => placeKind === 'region' && period.first === period.last,
  );
  const tested = pairs.map((pair) => {
    const own = published.filter(({ species, group }) => species === pair.species && group === pair.group);
    return { pair, tested: own.reduce((sum, cell) => sum + cell.tested, 0) };
  });
  return tested.sort((a, b) => b.tested - a.tested)[0]?.pair ?? null;
}
