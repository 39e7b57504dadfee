import type { NextRequest } from 'next/server';
import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { addActivity } from '@/db/repositories/activity';
import type { Person } from '@/db/repositories/people';
import { may, type Right } from '@/lib/access/rights';
import type { StaffSide } from '@/lib/access/staff-side';
import { staff } from '../messages/en';
import { currentPerson, theStaffSide } from './current';
import { owesFactor } from './owes-factor';
import { report } from './report';

/** What a route of the staff side answers from. */
export interface RouteContext {
  db: StaffDatabase;
  side: StaffSide;
  person: Person;
  params: Record<string, string>;
  request: NextRequest;
  /** Writes into the log what was taken away or done. */
  note: (about: string, details?: Record<string, unknown>) => Promise<void>;
}

/**
 * Makes a route handler of the staff side, for files to take away, uploads and progress. 401 for a stranger, 403
 * without `right`, 422 with the words of a `UserError`, 500 without details for anything else. A route that changes
 * something or hands out rows says so by `note`.
 */
export function staffRoute(right: Right, answer: (context: RouteContext) => Promise<Response>) {
  return async (
    request: NextRequest,
    { params }: { params: Promise<Record<string, string>> },
  ): Promise<Response> => {
    const side = await theStaffSide();
    const person = await currentPerson();
    if (!person) return words(401, staff.form.signedOut);
    if (owesFactor(person, right)) return words(403, staff.form.owesFactor);
    if (!may(person.roles, right)) return words(403, staff.forbidden.text);
    const note = (about: string, details?: Record<string, unknown>) =>
      addActivity(side.db, { personId: person.id, by: person.name, what: right, about, details });
    try {
      return await answer({ db: side.db, side, person, params: await params, request, note });
    } catch (error) {
      if (error instanceof UserError) return words(422, error.message);
      report(right, error);
      return words(500, staff.failed.text);
    }
  };
}

function words(status: number, text: string): Response {
  return new Response(`${text}\n`, { status, headers: { 'Content-Type': 'text/plain; charset=utf-8' } });
}
