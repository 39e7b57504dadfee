import { z } from 'zod';
import { door } from '../messages/door';

/** An e-mail address as somebody types it. */
export const email = z.string().trim().toLowerCase().pipe(z.email(door.newPassword.email).max(254));

/** Where to go on after signing in: a page of the staff side, and nowhere else. */
export const next = z
  .string()
  .optional()
  .transform((path) => (path && /^\/staff(?:[/?][\w\-./?=&%+,:@]*)?$/.test(path) ? path : '/staff'));
