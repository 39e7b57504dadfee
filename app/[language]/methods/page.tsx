import { Article } from '@/app/components/article';
import { CaseDefinition } from '@/app/components/case-definition';
import { Cautions } from '@/app/components/cautions';
import { Empty } from '@/app/components/empty';
import { Masthead } from '@/app/components/masthead';
import { Unreachable } from '@/app/components/unreachable';
import { REFERENCES } from '@/app/messages/references';
import { readHead } from '@/app/view/read-head';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';
import { releaseFileHref } from '@/app/view/release-file-href';

/** What is counted, what is computed from it, and how wrong that can be. */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const reading = await readHead();
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  const { head } = reading;
  const { texts, at } = speech;
  const page = texts.methodsPage;
  return (
    <>
      <title>{`${page.heading} · ${texts.name}`}</title>
      <Masthead speech={speech} here="/methods" programme={head.programme} simulated={head.simulated} />
      <main id="content" className="article">
        <h1>{page.heading}</h1>
        <p>{page.intro}</p>
        <p>
          <a href={at('/privacy')}>{page.privacy}</a> · <a href={at('/words')}>{page.words}</a> ·{' '}
          <a href={releaseFileHref(head, '-code-book.md')} download>
            {page.codeBook}
          </a>
        </p>
        <Article contents={page.contents} sections={texts.methodsSections} />
        <section aria-labelledby="case-heading">
          <h2 id="case-heading">{page.definition}</h2>
          <p>
            <CaseDefinition speech={speech} caseDefinition={head.caseDefinition} />
          </p>
        </section>
        <section className="references" aria-labelledby="references-heading">
          <h2 id="references-heading">{page.references}</h2>
          <ul lang="en">
            {REFERENCES.map((work) => (
              <li key={work}>{work}</li>
            ))}
          </ul>
        </section>
        <Cautions speech={speech} />
      </main>
    </>
  );
}
