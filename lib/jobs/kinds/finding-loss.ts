import { lossOfDraft, lossOfRelease } from '../finding-loss';
import type { Worker } from '../work';

/** What the findings of a draft or a release lose beside exact counts. Nothing is stored but the job's outcome. */
export const findingLoss: Worker<'finding-loss'> = async ({ db, request, tell }) => {
  tell('Computing findings from exact counts');
  return 'draft' in request ? lossOfDraft(db, request.draft) : lossOfRelease(db, request.release);
};
