import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { readTests, type TestRow } from '@/db/repositories/facts';
import { closedSeasons, type Programme } from '@/db/repositories/programme';
import { type EarlierRelease, earlierReleases, saveRelease } from '@/db/repositories/releases';
import { unreported } from '@/db/repositories/reported';
import { factsOf } from '@/lib/cube/facts';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import { programmeRegion } from '@/lib/geography/programme-region';
import type { AreaTable } from '@/lib/geography/types';
import { type BuiltRelease, buildRelease, type ReleaseInput } from '@/lib/release/build';
import { releaseFiles } from '@/lib/release/files';
import { changesSince } from '@/lib/release/frozen';
import type { Season } from '@/lib/vocabulary/terms';

/** Seed of the permutation tests: fixed, so that the same results give the same release. */
const SEED = 20260210;
const PERMUTATIONS = 9_999;

export interface ReleaseOrder {
  programme: Programme;
  /** ISO day of publication. */
  date: string;
  note: string;
  /** True: build and audit, store nothing. */
  dryRun: boolean;
  onStage?: ReleaseInput['onStage'];
}

export interface MadeRelease extends BuiltRelease {
  /** Null after a dry run. */
  number: number | null;
  /** Results that stay out because their first find in the state awaits its second run. */
  held: number;
  /** Samples whose senders have not been told their results, by season. */
  unreported: { season: Season; populations: number }[];
}

/**
 * Builds a release from what is stored and stores it under the next number.
 *
 * @throws UserError when no season is closed, the audit is not clean, or the release could be subtracted from an
 *   earlier one; then nothing is stored
 */
export async function makeRelease(
  staff: StaffDatabase,
  { programme, date, note, dryRun, onStage }: ReleaseOrder,
): Promise<MadeRelease> {
  const region = programmeRegion({ ...programme, name: programme.regionName });
  const closed = await closedSeasons(staff);
  const { released, held } = withoutHeld(await readTests(staff));
  const facts = factsOf(released);
  refuseEmpty(
    facts.some((fact) => fact.publicShare),
    closed.length > 0,
  );
  const earlier = await earlierReleases(staff);
  const { version, words } = await currentCaseDefinition(staff, date);
  const built = await buildRelease({
    facts,
    region,
    programme: programme.name,
    simulated: programme.simulated,
    date,
    note,
    policy: DEFAULT_POLICY,
    closedSeasons: closed,
    firstSeason: earlier[0]?.firstSeason ?? null,
    caseDefinition: { version, words },
    licence: programme.licence,
    keptAreas: keptAreas(earlier),
    seed: SEED,
    permutations: PERMUTATIONS,
    onStage,
  });
  if (!built.audit.clean) refuseAudit(built.audit.breaches.length);
  refuseSubtraction(earlier, built);
  const waiting = { held, unreported: await unreported(staff) };
  if (dryRun) return { ...built, ...waiting, number: null };
  // What a withdrawn release said is not said again.
  const before = earlier.findLast((release) => !release.isWithdrawn) ?? null;
  const files = (number: number) => releaseFiles(built.draft, number, region, { before });
  const number = await saveRelease(staff, { draft: built.draft, audit: built.audit, files });
  return { ...built, ...waiting, number };
}

/** The areas of every window that was released, as they were first. */
function keptAreas(earlier: readonly EarlierRelease[]): AreaTable[] {
  const tables = new Map<string, AreaTable>();
  for (const release of earlier) {
    for (const table of release.areas) {
      const key = `${table.species}|${table.first}`;
      if (!tables.has(key)) tables.set(key, table);
    }
  }
  return [...tables.values()];
}

/**
 * What may enter a release: of a population whose result in a group is a first find that awaits its second run, nothing
 * of that group, since what is left would call it something else.
 */
function withoutHeld(tests: readonly TestRow[]): { released: TestRow[]; held: number } {
  const keyOf = ({ population, group, assay }: TestRow) => `${population}|${group}|${assay}`;
  const held = new Set(tests.filter((test) => test.held).map(keyOf));
  return { released: tests.filter((test) => !held.has(keyOf(test))), held: held.size };
}

function refuseEmpty(hasFacts: boolean, hasClosed: boolean): void {
  if (!hasFacts) {
    throw new UserError(
      'There is nothing to release: no result with its sender’s consent is stored.',
      'Import a sheet first: npm run import -- SHEET',
    );
  }
  if (!hasClosed) {
    throw new UserError(
      'There is nothing to release: no season is closed, and only closed seasons are shown by county and district.',
      'Close one when its results have gone out: npm run season -- close YEAR',
    );
  }
}

function refuseAudit(breaches: number): never {
  throw new UserError(
    `The audit found ${breaches} withheld counts that are exact or too narrow, so nothing was released.`,
    'This is a defect of the gate: keep the data as they are and report it.',
  );
}

function refuseSubtraction(earlier: readonly EarlierRelease[], { draft }: BuiltRelease): void {
  for (const { number, cells } of earlier) {
    const changes = changesSince(cells, draft.cube.cells);
    if (changes.length === 0) continue;
    throw new UserError(
      `This release would differ from release ${number} in ${changes.length} closed cells, and the two could be ` +
        `subtracted (${changes.slice(0, 3).join('; ')}${changes.length > 3 ? '; …' : ''}). Nothing was released.`,
      'Closed seasons are frozen: late results and corrections wait until releases can be audited together.',
    );
  }
}
