import type { ReactNode } from 'react';
import type { Speech } from '../messages/texts';
import { Masthead } from './masthead';

/** A page that has only something to say: what is the matter, and what to do. */
export function NoticePage({
  speech,
  heading,
  children,
}: {
  speech: Speech;
  heading: string;
  children: ReactNode;
}) {
  return (
    <>
      <title>{`${heading} · ${speech.texts.name}`}</title>
      <Masthead speech={speech} />
      <main id="content" className="notice">
        <h1>{heading}</h1>
        {children}
      </main>
    </>
  );
}
