import type { ReactNode } from 'react';
import { Mark } from '@/app/components/mark';
import type { Person } from '@/db/repositories/people';
import type { Programme } from '@/db/repositories/programme';
import { may } from '@/lib/access/rights';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { signOut } from '../account/actions';
import { staff } from '../messages/en';
import { NAVIGATION } from '../navigation';
import { NavigationLinks } from './navigation-links';

/** What stands around every page of somebody who is signed in. */
export function Shell(props: {
  title: string;
  person: Person;
  programme: Programme | null;
  publicSite: string;
  /** HTTP status, where it is not 200. */
  status?: number;
  /** Whether results are shown: the standing cautions then stand below. */
  cautions?: boolean;
  children: ReactNode;
}) {
  const { title, person, programme, publicSite, status, cautions, children } = props;
  const links = NAVIGATION.filter(({ right }) => may(person.roles, right));
  return (
    <>
      <title>{`${title} · ${staff.side}`}</title>
      {status ? <meta name="status" content={String(status)} /> : null}
      <a className="skip" href="#content">
        {staff.skip}
      </a>
      <header className="staff-head">
        <div className="staff-row">
          <a className="staff-home" href="/staff">
            <Mark />
            <span>Fencerow</span>
          </a>
          <p className="staff-programme">{programme?.name ?? staff.noProgramme}</p>
          <button type="button" className="staff-menu-button" popoverTarget="staff-menu">
            {staff.menu}
          </button>
          <details className="staff-account">
            <summary>{person.name}</summary>
            <div className="staff-account-menu">
              <p className="quiet">
                {person.email}
                <br />
                {person.roles.map((role) => staff.roles[role]).join(', ')}
              </p>
              <a href="/staff/account">{staff.ownAccount}</a>
              <a href={publicSite}>{staff.publicSite}</a>
              <form action={signOut}>
                <button type="submit" className="plain">
                  {staff.signOut}
                </button>
              </form>
            </div>
          </details>
        </div>
        <nav id="staff-menu" popover="auto" className="staff-nav" aria-label={staff.navigation}>
          <NavigationLinks links={links} />
        </nav>
        {programme?.simulated ? <p className="staff-simulated">{SIMULATED_NOTICE}</p> : null}
      </header>
      <main id="content" className="staff-main">
        <h1>{title}</h1>
        {children}
        {cautions ? <StandingCautions /> : null}
      </main>
    </>
  );
}

function StandingCautions() {
  return (
    <section className="staff-cautions" aria-labelledby="cautions-heading">
      <h2 id="cautions-heading">{staff.cautions}</h2>
      <p>{staff.private}</p>
      <ul>
        {CAUTIONS.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
