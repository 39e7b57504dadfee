import type { StaffDatabase } from '@/db/clients/staff';
import type { Programme } from '@/db/repositories/programme';
import { saveDraft } from '@/db/repositories/release-drafts';
import { releaseFindings } from '@/db/repositories/release-findings';
import { releaseState } from '@/db/repositories/release-state';
import { packFiles } from '@/db/repositories/releases';
import { unreported } from '@/db/repositories/reported';
import { releaseFiles } from '@/lib/release/files';
import { draftReport } from './draft-report';
import { basisOf, buildChecked, prepareRelease } from './make-release';

export interface DraftOrder {
  programme: Programme;
  /** ISO day that the release will bear. */
  date: string;
  note: string;
  by: string;
  personId: string | null;
  /** Told what is being done, in words, and which part of how many. */
  tell: (stage: string, done?: number, whole?: number) => void;
}

const STAGES = {
  cells: 'Counting the cells of every public table',
  gate: 'Withholding small counts',
  audit: 'Looking for withheld counts that could still be worked out',
  findings: 'Computing findings from the released cells',
};

/**
 * Builds and audits a release, with its files and with what whoever decides should know, and keeps it as a draft.
 *
 * @returns the draft's id
 * @throws UserError as `makeRelease`, and where something was stored meanwhile that changes it
 */
export async function draftRelease(db: StaffDatabase, order: DraftOrder): Promise<number> {
  const { programme, date, note, by, personId, tell } = order;
  tell('Reading what is stored');
  const made = await releaseState(db);
  const prepared = await prepareRelease(db, { programme, date, note });
  const built = await buildChecked(prepared, (stage) => tell(STAGES[stage]));
  const { region, policy } = prepared.input;
  const { draft, audit } = built;

  tell('Comparing with exact counts and with the last release');
  const waits = { held: prepared.held, unreported: await unreported(db) };
  const findingsBefore = prepared.before && (await releaseFindings(db, prepared.before.number));
  const report = { ...draftReport({ built, region, policy, findingsBefore }), ...waits };

  const number = (prepared.earlier.at(-1)?.number ?? 0) + 1;
  let files = 0;
  const written = await releaseFiles(draft, number, region, {
    before: prepared.before,
    onFile: () => tell(`Writing files (${++files})`),
  });
  tell('Packing files');
  return saveDraft(db, {
    ...{ number, draft, audit, made, report, by, personId },
    basis: basisOf(built, region),
    files: await packFiles(written),
  });
}
