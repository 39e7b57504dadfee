import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import { readTests } from '@/db/repositories/facts';
import { closedSeasons } from '@/db/repositories/programme';
import { factsOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import type { Season } from '@/lib/vocabulary/terms';
import { withoutHeld } from './without-held';

/**
 * What a release would be made of today: facts with their sender's consent, none of whose first find waits for its second
 * run, and the closed seasons. Private.
 *
 * @throws UserError where there is nothing
 */
export async function releaseFacts(staff: StaffDatabase): Promise<{ facts: Fact[]; closed: Season[] }> {
  const facts = factsOf(withoutHeld(await readTests(staff)).released).filter((fact) => fact.publicShare);
  const closed = (await closedSeasons(staff)).sort((a, b) => a - b);
  if (facts.length === 0) {
    throw new UserError(
      'No result with its sender’s consent is stored.',
      'Import a sheet first: npm run import -- SHEET',
    );
  }
  if (closed.length === 0) {
    throw new UserError(
      'No season is closed, and only closed seasons are shown by county and district.',
      'Close one when its results have gone out: npm run season -- close YEAR',
    );
  }
  return { facts, closed };
}
