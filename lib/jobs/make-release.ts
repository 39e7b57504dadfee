import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { readTests, testsOfSpecies } from '@/db/repositories/facts';
import { standingPolicy } from '@/db/repositories/policies';
import { closedSeasons, type Programme } from '@/db/repositories/programme';
import { recodedCounties } from '@/db/repositories/recoded-counties';
import { type ReleaseBasis, releaseBases } from '@/db/repositories/release-basis';
import { type EarlierRelease, earlierReleases, saveRelease } from '@/db/repositories/releases';
import { unreported } from '@/db/repositories/reported';
import { factsOf } from '@/lib/cube/facts';
import type { PlaceTree } from '@/lib/disclosure/places';
import { programmeRegion } from '@/lib/geography/programme-region';
import type { AreaTable } from '@/lib/geography/types';
import { type BuiltRelease, buildRelease, type ReleaseInput, waitingFor } from '@/lib/release/build';
import { cellChanges } from '@/lib/release/cell-changes';
import { releaseFiles } from '@/lib/release/files';
import { changesSince } from '@/lib/release/frozen';
import { ReleaseRefused } from '@/lib/release/guard';
import { recodedAreas, recodedFacts, recodedPast } from '@/lib/release/recoded';
import { releaseChanges } from '@/lib/release/release-changes';
import type { PastRelease, Waiting } from '@/lib/release/revision/types';
import type { ProgrammeSays, ReleaseDraft } from '@/lib/release/types';
import type { Eppo, Season } from '@/lib/vocabulary/terms';
import { withoutHeld } from './without-held';

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
  const prepared = await prepareRelease(staff, { programme, date, note });
  const built = await buildChecked(prepared, onStage);
  const waiting = { held: prepared.held, unreported: await unreported(staff) };
  if (dryRun) return { ...built, ...waiting, number: null };
  const { region } = prepared.input;
  const files = (number: number) => releaseFiles(built.draft, number, region, { before: prepared.before });
  const { draft, audit } = built;
  const after = prepared.earlier.at(-1)?.number ?? 0;
  const number = await saveRelease(staff, { draft, audit, files, basis: basisOf(built, region), after });
  return { ...built, ...waiting, number };
}

/**
 * Builds a release and looks whether it may be published. Nothing is stored.
 *
 * @throws UserError when the audit is not clean, or the release could be subtracted from an earlier one
 */
export async function buildChecked(
  { input, earlier, before, bases, says }: PreparedRelease,
  onStage?: ReleaseInput['onStage'],
): Promise<BuiltRelease> {
  const built = await orRefusal({ ...input, onStage });
  if (!built.audit.clean) refuseAudit(built.audit.breaches.length);
  refuseSubtraction(earlier, bases, built);
  return { ...built, draft: withHead(built.draft, before, says) };
}

/** Its head tells how it differs from the release before, and what the programme says to its readers. */
function withHead(draft: ReleaseDraft, before: EarlierRelease | null, says: ProgrammeSays): ReleaseDraft {
  const changes =
    before &&
    releaseChanges(
      draft,
      before,
      cellChanges(before.cells, draft.cube.cells),
      cellChanges(before.further, draft.cube.further),
    );
  return { ...draft, head: { ...draft.head, says, changes } };
}

/** What later releases are audited together with. */
export function basisOf({ revision }: BuiltRelease, region: PlaceTree): ReleaseBasis {
  return { facts: revision.facts, places: treeOf(region), waiting: revision.waiting };
}

/** What would wait if a release were made now, by the batch rule: late samples, corrections, withdrawn consents. */
export async function waitingNow(
  staff: StaffDatabase,
  order: Pick<ReleaseOrder, 'programme' | 'date'>,
): Promise<Waiting[]> {
  const { input } = await prepareRelease(staff, { ...order, note: '' });
  return waitingFor(input);
}

export interface PreparedRelease {
  input: ReleaseInput;
  /** Results that stay out because their first find awaits its second run. */
  held: number;
  /** Oldest first, withdrawn ones among them. */
  earlier: EarlierRelease[];
  /** The newest that stands: what a withdrawn release said is not said again. */
  before: EarlierRelease | null;
  bases: Map<number, ReleaseBasis>;
  /** What the programme says to readers. */
  says: ProgrammeSays;
}

/**
 * What a release is built from, as it is stored.
 *
 * @param species of this weed alone: for a look ahead, never for a release
 * @throws UserError where nothing may be released
 */
export async function prepareRelease(
  staff: StaffDatabase,
  { programme, date, note }: Pick<ReleaseOrder, 'programme' | 'date' | 'note'>,
  species: Eppo | null = null,
): Promise<PreparedRelease> {
  const region = programmeRegion({ ...programme, name: programme.regionName });
  const closed = await closedSeasons(staff);
  const { released, held } = withoutHeld(
    species === null ? await readTests(staff) : await testsOfSpecies(staff, species),
  );
  const recoding = await recodedCounties(staff);
  const facts = recodedFacts(factsOf(released), recoding);
  // A look ahead at one weed goes on where all of it leaves.
  refuseEmpty(species !== null || facts.some((fact) => fact.publicShare), closed.length > 0);
  const earlier = await earlierReleases(staff, species);
  const bases = await releaseBases(staff, species);
  const { version, words } = await currentCaseDefinition(staff, date);
  const input: ReleaseInput = {
    facts,
    region,
    programme: programme.name,
    simulated: programme.simulated,
    date,
    note,
    policy: await standingPolicy(staff),
    closedSeasons: closed,
    firstSeason: earlier[0]?.firstSeason ?? null,
    caseDefinition: { version, words },
    licence: programme.licence,
    keptAreas: recodedAreas(keptAreas(earlier), recoding),
    past: recodedPast(pastReleases(earlier, bases), recoding),
    seed: SEED,
    permutations: PERMUTATIONS,
  };
  const before = earlier.findLast((release) => !release.isWithdrawn) ?? null;
  return { input, held, earlier, before, bases, says: saysOf(programme) };
}

function saysOf({ contact, samplesTo, regulatedNotice }: Programme): ProgrammeSays {
  return { contact, samplesTo, regulatedNotice };
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

/** A release of which it is not known what it was made of must look as the next one does of which it is. */
function refuseSubtraction(
  earlier: readonly EarlierRelease[],
  bases: ReadonlyMap<number, ReleaseBasis>,
  { draft }: BuiltRelease,
): void {
  const next = earlier.find(({ number }) => bases.has(number))?.cells ?? draft.cube.cells;
  for (const { number, cells } of earlier) {
    const changes = bases.has(number) ? [] : changesSince(cells, next);
    if (changes.length === 0) continue;
    throw new UserError(
      `This release would differ from release ${number} in ${changes.length} closed cells, and the two could be ` +
        `subtracted (${changes.slice(0, 3).join('; ')}${changes.length > 3 ? '; …' : ''}). Nothing was released.`,
      'What release ' +
        `${number} was made of was not kept, so late results and corrections of its seasons must wait for one that shows them as it did.`,
    );
  }
}

async function orRefusal(input: ReleaseInput): Promise<BuiltRelease> {
  try {
    return await buildRelease(input);
  } catch (error) {
    if (!(error instanceof ReleaseRefused)) throw error;
    throw new UserError(
      `Beside the earlier releases this one cannot be made safe: ${error.message}. Nothing was released.`,
      'Take back what was recoded since, or report it with the data as they are.',
    );
  }
}

function pastReleases(
  earlier: readonly EarlierRelease[],
  bases: ReadonlyMap<number, ReleaseBasis>,
): PastRelease[] {
  return earlier.flatMap(({ number, head, cells, further, furtherTables, statuses }): PastRelease[] => {
    const basis = bases.get(number);
    if (!basis) return [];
    const { firstSeason, closedSeasons, openSeason, windows, seasonTables, areas } = head;
    const seasons = { firstSeason, closedSeasons, openSeason, windows };
    const cube = { ...seasons, seasonTables, areas, cells, further, furtherTables, statuses };
    return [{ number, cube, places: basis.places, facts: basis.facts }];
  });
}

/** Only how places lie in each other: outlines are no part of what a release said. */
function treeOf({ counties, districts }: PlaceTree): PlaceTree {
  return {
    counties: counties.map(({ fips, state, district }) => ({ fips, state, district })),
    districts: districts.map(({ code, state, counties: own }) => ({ code, state, counties: own })),
  };
}
