import { refresh } from 'next/cache';
import { redirect, unstable_rethrow } from 'next/navigation';
import type { ZodType, z } from 'zod';
import type { StaffDatabase } from '@/db/clients/staff';
import { inTransaction } from '@/db/clients/transaction';
import { UserError } from '@/db/errors';
import { addActivity } from '@/db/repositories/activity';
import type { Person } from '@/db/repositories/people';
import { may, type Right } from '@/lib/access/rights';
import type { StaffSide } from '@/lib/access/staff-side';
import { staff } from '../messages/en';
import { currentPerson, theStaffSide } from './current';
import type { Outcome } from './outcome';
import { owesFactor } from './owes-factor';
import { enteredValues, parseForm } from './read-form';
import { report } from './report';

/** What an action works with. */
export interface ActionContext<T> {
  /** Everything done with it is kept or taken back together with the line in the log. */
  db: StaffDatabase;
  side: StaffSide;
  person: Person;
  input: T;
}

/** What an action did. */
export interface Done {
  /** One or two sentences for whoever asked. */
  say: string;
  /** To what, in words, for the log. */
  about?: string;
  /** What else the log keeps; no secrets. */
  details?: Record<string, unknown>;
  /** Address to go on to; the page itself where left out. */
  go?: string;
  /** What only the person who asked may see once, as a link. */
  shown?: Record<string, string>;
}

/**
 * Makes an action of the staff side, for a form (`ActionForm`). Who asks must be signed in and have `right`, now; the
 * form must fit `schema`; then `act` and the line in the log are one transaction. A `UserError` takes all back and is
 * told as it stands; anything else is written to the server's log and told without details. Requests from other sites
 * do not get here: scripts/serve refuses them.
 */
export function staffAction<S extends ZodType>(
  right: Right,
  schema: S,
  act: (context: ActionContext<z.output<S>>) => Promise<Done>,
) {
  return async (_before: Outcome | null, form: FormData): Promise<Outcome> => {
    const side = await theStaffSide();
    const person = await currentPerson();
    const values = enteredValues(form);
    if (!person) return { state: 'signed out', message: staff.form.signedOut, values };
    if (owesFactor(person, right)) return { state: 'forbidden', message: staff.form.owesFactor, values };
    if (!may(person.roles, right)) return { state: 'forbidden', message: staff.forbidden.text, values };
    const parsed = parseForm(schema, form);
    if ('wrong' in parsed) return parsed.wrong;
    const attempt = await carriedOut(right, side, person, (db) =>
      act({ db, side, person, input: parsed.input }),
    );
    if ('outcome' in attempt) return { ...attempt.outcome, values };
    const { done } = attempt;
    if (done.go) redirect(done.go);
    refresh();
    return { state: 'done', message: done.say, shown: done.shown };
  };
}

async function carriedOut(
  right: Right,
  side: StaffSide,
  person: Person,
  act: (db: StaffDatabase) => Promise<Done>,
): Promise<{ done: Done } | { outcome: Outcome }> {
  try {
    const done = await inTransaction(side.db, async (db) => {
      const did = await act(db);
      await addActivity(db, {
        personId: person.id,
        by: person.name,
        what: right,
        about: did.about,
        details: did.details,
      });
      return did;
    });
    return { done };
  } catch (error) {
    unstable_rethrow(error);
    if (error instanceof UserError) return { outcome: { state: 'refused', message: error.message } };
    report(right, error);
    return { outcome: { state: 'failed', message: staff.failed.text } };
  }
}
