import type { Person } from '@/db/repositories/people';
import type { Right } from '@/lib/access/rights';

/** Where a second factor is set up. */
export const FACTOR_PAGE = '/staff/account';

/** Whether somebody must set up a second factor before anything that asks for this right. */
export function owesFactor({ mustHaveFactor, twoFactor }: Person, right: Right): boolean {
  return mustHaveFactor && !twoFactor && right !== 'account.change';
}
