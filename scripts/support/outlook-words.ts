import type { Outlook } from '@/lib/jobs/outlook';
import { reasonOf } from './waiting-words';

/** What becomes of a record in the next release, as a line for the staff; none where there is nothing to say. */
export function outlookWords(outlook: Outlook): string[] {
  if (outlook.kind === 'open') return [];
  if (outlook.kind === 'as released') return ['  Public counts stay as they are.'];
  if (outlook.kind === 'enters') return ['  It enters the next release, if the audit lets it.'];
  return outlook.waiting.map(
    ({ group, why }) =>
      `  Group ${group} waits with the late changes of its county and season: ${reasonOf(why)}. Nothing public changes yet.`,
  );
}
