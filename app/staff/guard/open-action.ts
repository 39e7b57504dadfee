import { parseSetCookieHeader } from 'better-auth/cookies';
import { cookies, headers as requestHeaders } from 'next/headers';
import { redirect, unstable_rethrow } from 'next/navigation';
import type { ZodType, z } from 'zod';
import { UserError } from '@/db/errors';
import { type AuthAnswer, askAuth } from '@/lib/access/ask-auth';
import type { StaffSide } from '@/lib/access/staff-side';
import { staff } from '../messages/en';
import { theStaffSide } from './current';
import type { Outcome } from './outcome';
import { enteredValues, parseForm } from './read-form';
import { report } from './report';

/** What an action that is open to strangers works with. */
export interface OpenContext<T> {
  side: StaffSide;
  input: T;
  /** Asks the library of accounts, and hands its cookies on. */
  ask: (path: string, body: Record<string, unknown>) => Promise<AuthAnswer>;
}

/**
 * Makes an action that needs no account: to sign in, to ask for a new password. There is no other kind without a right,
 * and a test holds the list of them.
 */
export function openAction<S extends ZodType>(
  schema: S,
  act: (context: OpenContext<z.output<S>>) => Promise<Outcome | { go: string }>,
) {
  return async (_before: Outcome | null, form: FormData): Promise<Outcome> => {
    const side = await theStaffSide();
    const values = enteredValues(form);
    const parsed = parseForm(schema, form);
    if ('wrong' in parsed) return parsed.wrong;
    let came: Outcome | { go: string };
    try {
      came = await act({ side, input: parsed.input, ask: (path, body) => askAndKeep(side, path, body) });
    } catch (error) {
      unstable_rethrow(error);
      if (error instanceof UserError) return { state: 'refused', message: error.message, values };
      report('open action', error);
      return { state: 'failed', message: staff.failed.text, values };
    }
    if ('go' in came) redirect(came.go);
    return came.state === 'done' ? came : { values, ...came };
  };
}

/** Asks the library of accounts in the name of the request under way, and sets the cookies that it answers with. */
export async function askAndKeep(
  side: StaffSide,
  path: string,
  body: Record<string, unknown>,
): Promise<AuthAnswer> {
  const answer = await askAuth(side.auth, path, body, new Headers(await requestHeaders()));
  const jar = await cookies();
  for (const line of answer.cookies) {
    for (const [name, { value, 'max-age': maxAge, path: at, secure }] of parseSetCookieHeader(line)) {
      jar.set(name, value, {
        httpOnly: true,
        sameSite: 'strict',
        secure: secure ?? false,
        path: at ?? '/',
        maxAge,
      });
    }
  }
  return answer;
}
