import type { Person } from '@/db/repositories/people';
import { may } from '@/lib/access/rights';

/** Whether somebody sees the exact numbers of all counties, and not only of those that are assigned. */
export function seesAllCounties({ roles }: Pick<Person, 'roles'>): boolean {
  return may(roles, 'map.see');
}
