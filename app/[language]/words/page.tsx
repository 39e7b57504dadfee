import { Masthead } from '@/app/components/masthead';
import { readHead } from '@/app/view/read-head';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';
import '@/app/styles/article.css';

/** The words of the trade and of this site; it needs no release. */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const reading = await readHead();
  const head = reading.state === 'ready' ? reading.head : null;
  const { texts, language } = speech;
  const terms = Object.entries(texts.glossary).sort(([, a], [, b]) => a.term.localeCompare(b.term, language));
  return (
    <>
      <title>{`${texts.glossaryPage.heading} · ${texts.name}`}</title>
      <Masthead speech={speech} here="/words" programme={head?.programme} simulated={head?.simulated} />
      <main id="content" className="article glossary">
        <h1>{texts.glossaryPage.heading}</h1>
        <p>{texts.glossaryPage.intro}</p>
        <dl>
          {terms.map(([key, { term, meaning }]) => (
            <div key={key} id={key}>
              <dt>{term}</dt>
              <dd>{meaning}</dd>
            </div>
          ))}
        </dl>
      </main>
    </>
  );
}
