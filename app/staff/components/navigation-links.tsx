'use client';

import Link from 'next/link';
import { usePathname } from 'next/navigation';
import type { Destination } from '../navigation';

/** The links of the navigation; the one where we are says so. */
export function NavigationLinks({ links }: { links: readonly Destination[] }) {
  const path = usePathname();
  return (
    <ul>
      {links.map(({ href, words }) => (
        <li key={href}>
          <Link href={href} prefetch={false} aria-current={isAt(path, href) ? 'page' : undefined}>
            {words}
          </Link>
        </li>
      ))}
    </ul>
  );
}

function isAt(path: string, href: string): boolean {
  return href === '/staff' ? path === href : path === href || path.startsWith(`${href}/`);
}
