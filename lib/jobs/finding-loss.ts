import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { releaseBases } from '@/db/repositories/release-basis';
import { readDraftBody } from '@/db/repositories/release-drafts';
import { releaseFindings } from '@/db/repositories/release-findings';
import { type EarlierRelease, earlierReleases } from '@/db/repositories/releases';
import type { Fact } from '@/lib/cube/types';
import type { Finding } from '@/lib/findings/types';
import { programmeRegion } from '@/lib/geography/programme-region';
import { type PublicLoss, publicLoss } from '@/lib/release/public-loss';
import { unwithheldFindings } from '@/lib/release/public-loss-findings';
import type { ReleaseDraft } from '@/lib/release/types';
import { commonNameOf } from '@/lib/vocabulary/species';
import { programmeOf } from './programme-of';
import { releaseFacts } from './release-facts';

/** What the findings of a release or a draft lose beside exact counts. Private. */
export interface FindingLoss extends PublicLoss {
  /** Of the release; null for a draft. */
  number: number | null;
  /** ISO day that it bears. */
  date: string;
  /** False where what entered is not on record, and the samples stored now were taken. */
  ofWhatEntered: boolean;
}

/**
 * What the findings of a release that stands lose.
 *
 * @param number null for the newest
 * @throws UserError where there is none such, or it does not say how its findings were computed
 */
export async function lossOfRelease(db: StaffDatabase, number: number | null): Promise<FindingLoss> {
  const release = chosen(await earlierReleases(db), number);
  const basis = (await releaseBases(db)).get(release.number);
  const { facts } = basis ?? (await releaseFacts(db));
  const findings = await releaseFindings(db, release.number);
  const loss = await lossOf(db, { head: release.head, facts, findings, name: `Release ${release.number}` });
  return { number: release.number, date: release.head.date, ofWhatEntered: basis !== undefined, ...loss };
}

/** What the findings of an open draft would lose. @throws UserError where somebody decided on it already */
export async function lossOfDraft(db: StaffDatabase, id: number): Promise<FindingLoss> {
  const body = await readDraftBody(db, id);
  if (!body) {
    throw new UserError(
      'This draft is decided, and what it was made of is not kept with it.',
      'A published one is looked at as a release.',
    );
  }
  const { draft, basis } = body;
  const { head, findings } = draft;
  const loss = await lossOf(db, { head, facts: basis.facts, findings, name: 'The draft' });
  return { number: null, date: head.date, ofWhatEntered: true, ...loss };
}

async function lossOf(
  db: StaffDatabase,
  of: {
    head: Pick<ReleaseDraft['head'], 'windows' | 'closedSeasons' | 'tests'>;
    facts: readonly Fact[];
    findings: readonly Finding[];
    name: string;
  },
): Promise<PublicLoss> {
  const { windows, closedSeasons, tests } = of.head;
  if (!tests) {
    throw new UserError(
      `${of.name} does not say with which seed its findings were computed.`,
      'Name a newer one.',
    );
  }
  const programme = await programmeOf(db);
  const region = programmeRegion({ ...programme, name: programme.regionName });
  const ground = { facts: of.facts, region, windows, closedSeasons, speciesName: commonNameOf };
  return publicLoss(of.findings, unwithheldFindings({ ...ground, ...tests }), region);
}

function chosen(releases: readonly EarlierRelease[], number: number | null): EarlierRelease {
  const standing = releases.filter(({ isWithdrawn }) => !isWithdrawn);
  const found = number === null ? standing.at(-1) : standing.find((release) => release.number === number);
  if (found) return found;
  throw new UserError(
    number === null ? 'There is no release that stands.' : `There is no release ${number} that stands.`,
    standing.length === 0
      ? 'Publish one first.'
      : `Name one of these: ${standing.map((release) => release.number).join(', ')}.`,
  );
}
