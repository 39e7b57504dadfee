import type { Fact } from '@/lib/cube/types';
import type { GateFigures } from '@/lib/disclosure/protect';
import type { AuditReport, Policy, ReleasedCube } from '@/lib/disclosure/types';
import type { AreaTable, Region } from '@/lib/geography/types';
import { commonNameOf } from '@/lib/vocabulary/species';
import type { Season } from '@/lib/vocabulary/terms';
import { type GuardInput, guard, revisionOf } from './guard';
import { publicObservations } from './observations';
import { pairsOf, publicFindings } from './public-findings';
import type { PastRelease, Revision, Waiting } from './revision/types';
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
  /** Every earlier release with what it was made of, oldest first, withdrawn ones among them. */
  past?: readonly PastRelease[];
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
  /** Private: what the release is made of, and what waits. */
  revision: Revision;
}

/**
 * Builds a release: what may enter → cells of the ladder → gate → audit with all earlier releases → findings from the
 * released cells alone. Whether a release whose audit is not clean is refused is the caller's duty; nothing of it may be
 * shown. Same input, same release.
 *
 * @throws RangeError where no season is closed or no fact may be shown
 * @throws ReleaseRefused where earlier releases leave no safe way to make this one
 */
export async function buildRelease(input: ReleaseInput): Promise<BuiltRelease> {
  const { region, onStage = () => {} } = input;
  const { cube, ...guarded } = await guard({ ...guardInput(input), onStage });
  onStage('findings');
  const pairs = pairsOf(cube);
  const { seed, permutations } = input;
  const findings = publicFindings(cube, { region, seed, permutations, speciesName: commonNameOf });
  return { draft: { head: headOf(input, cube, pairs), cube, findings }, ...guarded };
}

/** What waits for the next release by the batch rule, without building it. Private. */
export function waitingFor(input: ReleaseInput): Waiting[] {
  return revisionOf(guardInput(input)).waiting;
}

function guardInput(input: ReleaseInput): GuardInput {
  const facts = input.facts.filter((fact) => fact.publicShare);
  const { region, keptAreas, past } = input;
  return { facts, region, keptAreas, past, question: { policy: input.policy, ...seasonsOf(facts, input) } };
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
    ...(input.simulated || input.region.districts.length === 0 ? {} : { districts: input.region.districts }),
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
    furtherTables: [...cube.furtherTables],
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
