import type { ReactNode } from 'react';
import { en } from '../messages/en';
import { Masthead } from './masthead';

/** A page that has only something to say: what is the matter, and what to do. */
export function NoticePage({ heading, children }: { heading: string; children: ReactNode }) {
  return (
    <>
      <title>{`${heading} · ${en.name}`}</title>
      <Masthead />
      <main id="content" className="notice">
        <h1>{heading}</h1>
        {children}
      </main>
    </>
  );
}
