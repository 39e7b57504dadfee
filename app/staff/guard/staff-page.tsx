import { headers } from 'next/headers';
import { redirect, unstable_rethrow } from 'next/navigation';
import type { ReactElement } from 'react';
import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import type { Person } from '@/db/repositories/people';
import { getProgramme, type Programme } from '@/db/repositories/programme';
import { may, type Right } from '@/lib/access/rights';
import type { StaffSide } from '@/lib/access/staff-side';
import { Shell } from '../components/shell';
import { Sorry } from '../components/sorry';
import { staff } from '../messages/en';
import { ASKED_PAGE, currentPerson, theStaffSide } from './current';
import { FACTOR_PAGE, owesFactor } from './owes-factor';
import { report } from './report';

type Words = Record<string, string | string[] | undefined>;

/** What a page of the staff side is made from. */
export interface PageContext {
  db: StaffDatabase;
  side: StaffSide;
  person: Person;
  /** Null before the first sheet. */
  programme: Programme | null;
  /** Parts of the address, as `{ id: '12' }` of `/staff/sheets/[id]`. */
  params: Record<string, string>;
  /** What stands behind the question mark. */
  search: Words;
}

/** A page: its title, and what stands below it. */
export interface Page {
  title: string;
  content: ReactElement;
  /** HTTP status, where it is not 200. */
  status?: number;
  /** True where results are shown: the standing cautions then stand below. */
  cautions?: boolean;
}

interface PageProps {
  params: Promise<Record<string, string>>;
  searchParams: Promise<Words>;
}

/**
 * Makes a page of the staff side: who asks must be signed in and have `right`, now. A stranger is led to sign in and
 * then back; whoever owes a second factor is led to set it up; somebody without the right is told so; a `UserError` is told
 * as it stands; anything else that fails is written to the server's log and shown without details.
 */
export function staffPage(right: Right, make: (context: PageContext) => Promise<Page>) {
  return async ({ params, searchParams }: PageProps): Promise<ReactElement> => {
    const side = await theStaffSide();
    const { db, settings } = side;
    const person = await currentPerson();
    if (!person) return redirect(signInAddress((await headers()).get(ASKED_PAGE)));
    if (owesFactor(person, right)) return redirect(FACTOR_PAGE);
    const programme = await getProgramme(db);
    const frame = { person, programme, publicSite: settings.publicSite };
    if (!may(person.roles, right)) {
      return (
        <Shell {...frame} title={staff.forbidden.heading} status={403}>
          <Sorry text={staff.forbidden.text} />
        </Shell>
      );
    }
    try {
      const page = await make({
        db,
        side,
        person,
        programme,
        params: await params,
        search: await searchParams,
      });
      return (
        <Shell {...frame} title={page.title} status={page.status} cautions={page.cautions}>
          {page.content}
        </Shell>
      );
    } catch (error) {
      unstable_rethrow(error);
      if (error instanceof UserError) {
        return (
          <Shell {...frame} title={staff.failed.heading} status={422}>
            <Sorry text={error.message} />
          </Shell>
        );
      }
      report(right, error);
      return (
        <Shell {...frame} title={staff.failed.heading} status={500}>
          <Sorry text={staff.failed.text} />
        </Shell>
      );
    }
  };
}

/** The page to sign in, which leads back to the page that was asked for. */
function signInAddress(asked: string | null): string {
  return asked && asked !== '/staff' ? `/staff/sign-in?next=${encodeURIComponent(asked)}` : '/staff/sign-in';
}
