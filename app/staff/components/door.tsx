import type { ReactNode } from 'react';
import { Mark } from '@/app/components/mark';
import { staff } from '../messages/en';

/** A page outside: to sign in, to choose a password. */
export function Door({ title, status, children }: { title: string; status?: number; children: ReactNode }) {
  return (
    <>
      <title>{`${title} · ${staff.side}`}</title>
      {status ? <meta name="status" content={String(status)} /> : null}
      <main id="content" className="staff-door">
        <p className="staff-home">
          <Mark />
          <span>{staff.side}</span>
        </p>
        <h1>{title}</h1>
        {children}
      </main>
    </>
  );
}
