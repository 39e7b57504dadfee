import { may } from '@/lib/access/rights';
import type { Role } from '@/lib/vocabulary/roles';
import { homeTexts as texts } from '../messages/home';
import { NAVIGATION } from '../navigation';
import type { Waits } from './what-waits';

/** What waits, each with the way to it for whoever may go there. */
export function WaitsList({ waits, roles }: { waits: readonly Waits[]; roles: readonly Role[] }) {
  return (
    <section aria-labelledby="waits">
      <h2 id="waits">{texts.waits}</h2>
      {waits.length === 0 ? <p>{texts.nothing}</p> : null}
      <ul className="staff-waits">
        {waits.map(({ what, why, href }) => (
          <li key={what}>
            {leadsSomewhere(href, roles) ? <a href={href}>{what}</a> : <strong>{what}</strong>}
            <p className="quiet">{why}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function leadsSomewhere(href: string, roles: readonly Role[]): boolean {
  const path = href.split('?', 1)[0]!;
  // The first page of the navigation is above all others.
  const page = NAVIGATION.findLast((one) => path === one.href || path.startsWith(`${one.href}/`));
  return page !== undefined && may(roles, page.right);
}
