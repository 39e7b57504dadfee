import { z } from 'zod';
import { LONGEST_PASSWORD, SHORTEST_PASSWORD } from '@/lib/access/passwords';
import { door } from '../messages/door';

/** A password to be. */
export const newPassword = z
  .string()
  .min(SHORTEST_PASSWORD, door.newPassword.short)
  .max(LONGEST_PASSWORD, door.newPassword.long);
