import { draftRelease } from '../draft-release';
import { programmeOf } from '../programme-of';
import type { Worker } from '../work';

/** Builds and audits a release and keeps it for a decision. Nothing is kept of it where it is broken off. */
export const releaseDraft: Worker<'release-draft'> = async ({ db, request, by, personId, tell }) => {
  const programme = await programmeOf(db);
  return { draft: await draftRelease(db, { programme, ...request, by, personId, tell }) };
};
