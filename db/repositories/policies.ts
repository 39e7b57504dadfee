import { desc } from 'drizzle-orm';
import { checkPolicy, DEFAULT_POLICY } from '@/lib/disclosure/policy';
import type { Policy } from '@/lib/disclosure/types';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { policy } from '../schema/surveillance';
import { addHistory } from './history';

/** A policy that was chosen, by whom and why. */
export type ChosenPolicy = typeof policy.$inferSelect;

/** The policy by which releases to come are made: the newest that was chosen, else the defaults. */
export async function standingPolicy(db: StaffDatabase): Promise<Policy> {
  const [newest] = await db.select().from(policy).orderBy(desc(policy.id)).limit(1);
  return newest?.policy ?? DEFAULT_POLICY;
}

/** All policies that were chosen, newest first. */
export async function listPolicies(db: StaffDatabase): Promise<ChosenPolicy[]> {
  return db.select().from(policy).orderBy(desc(policy.id));
}

/** What can be chosen in a policy; its version is given by the database. */
export type PolicyChoice = Omit<Policy, 'version'>;

/**
 * Chooses the policy of releases to come. What is released stays as it is.
 *
 * @throws UserError for a policy that is looser than the defaults or cannot be applied, and for the one that stands
 */
export async function choosePolicy(
  db: StaffDatabase,
  { choice, by, why }: { choice: PolicyChoice; by: string; why: string },
): Promise<Policy> {
  return db.$client.begin(async (sql) => {
    await sql`lock table surveillance.policy in exclusive mode`;
    const before = await standingPolicy(db);
    const [row] = await sql<{ count: number }[]>`select count(*)::int as count from surveillance.policy`;
    const after = checked({ ...choice, version: `${DEFAULT_POLICY.version}.${row!.count + 1}` });
    if (
      JSON.stringify({ ...before, version: '' }) === JSON.stringify({ ...before, ...choice, version: '' })
    ) {
      throw new UserError('This policy stands already.', 'Change one of its numbers, or leave it.');
    }
    await sql`
      insert into surveillance.policy (policy, chosen_by, why)
      values (${jsonText(after)}::text::jsonb, ${by}, ${why})`;
    await addHistory(sql, { by, why, what: 'policy chosen', before, after });
    return after;
  });
}

/** A policy that can be applied. @throws UserError that says which of its numbers cannot stand, and why */
export function checked(proposal: Policy): Policy {
  try {
    checkPolicy(proposal);
    return proposal;
  } catch (error) {
    throw new UserError(
      (error as Error).message.replace(/^policy: /, '').replace(/ Mend the policy.*$/, ''),
      'The defaults can be made stricter, never looser.',
    );
  }
}
