import { species as speciesOf } from '@/lib/vocabulary/species';
import type { Eppo } from '@/lib/vocabulary/terms';
import { weedNotes } from '@/lib/vocabulary/weed-notes';
import type { Speech } from '../messages/texts';

/** How to tell a weed, which plants bear seed, when it comes up, each with its source; what never controlled it. */
export function WeedAbout({ speech: { language, texts }, eppo }: { speech: Speech; eppo: Eppo }) {
  const weed = speciesOf(eppo);
  const notes = weedNotes(eppo);
  const { about, never } = texts.weed;
  const names = weed ? (language === 'en' ? weed.otherNames : [weed.commonName, ...weed.otherNames]) : [];
  return (
    <section className="weed-about" aria-labelledby="about-heading">
      <h2 id="about-heading">{about.heading}</h2>
      {names.length > 0 ? (
        <p>
          {about.others} <span lang="en">{names.join(', ')}</span>.
        </p>
      ) : null}
      {notes.length === 0 ? <p>{weed?.dioecious ? about.dioecious : about.none}</p> : null}
      <dl>
        {notes.map(({ kind, source, [language]: words }) => (
          <div key={kind}>
            <dt>{about.kinds[kind]}</dt>
            <dd>
              {words}
              <small className="note-source">
                <Source texts={texts} source={source} />
              </small>
            </dd>
          </div>
        ))}
        {weed && weed.neverSusceptibleTo.length > 0 ? (
          <div>
            <dt>{never.heading}</dt>
            <dd>{never.words(texts.weedName(eppo), weed.neverSusceptibleTo)}</dd>
          </div>
        ) : null}
      </dl>
      <p>{about.sample}</p>
    </section>
  );
}

/** Where a note was seen: sources are named in English, the parts from memory are told once. */
function Source({ texts: { weed }, source }: { texts: Speech['texts']; source: string }) {
  const parts = source.split('; ');
  const seen = parts.filter((part) => !part.startsWith('memory'));
  if (seen.length === 0) return weed.about.memory;
  return (
    <>
      {weed.about.after} <span lang="en">{seen.join('; ')}</span>
      {seen.length < parts.length ? `; ${weed.about.rest}` : ''}.
    </>
  );
}
