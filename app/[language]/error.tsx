'use client';

import { useParams } from 'next/navigation';
import { Mark } from '../components/mark';
import { FAILED } from '../messages/failed';
import { addressIn, LANGUAGES, languageOf } from '../messages/languages';

/** Anything unforeseen on a page. */
export default function Failed() {
  const language = languageOf(String(useParams()?.language)) ?? LANGUAGES[0];
  const { heading, text, home } = FAILED[language];
  return (
    <>
      <header className="masthead">
        <a className="home" href={addressIn(language, '/')}>
          <Mark />
        </a>
      </header>
      <main id="content" className="notice">
        <h1>{heading}</h1>
        <p>{text}</p>
        <p>
          <a href={addressIn(language, '/')}>{home}</a>
        </p>
      </main>
    </>
  );
}
