import type { ReactNode } from 'react';
import type { ReleaseHead } from '@/lib/release/types';
import type { Speech } from '../messages/texts';
import { Masthead } from './masthead';

/** A page that has only something to say: what is the matter, and what to do. */
export function NoticePage({
  speech,
  heading,
  here,
  head,
  children,
}: {
  speech: Speech;
  heading: string;
  /** Address of the page without its language, where it has one in every language. */
  here?: string;
  /** Of the newest release, where it is known: whose site this is. */
  head?: Pick<ReleaseHead, 'programme' | 'simulated'> | null;
  children: ReactNode;
}) {
  return (
    <>
      <title>{`${heading} · ${speech.texts.name}`}</title>
      <Masthead speech={speech} here={here} programme={head?.programme} simulated={head?.simulated} />
      <main id="content" className="notice">
        <h1>{heading}</h1>
        {children}
      </main>
    </>
  );
}
