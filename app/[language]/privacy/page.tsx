import { Article } from '@/app/components/article';
import { Empty } from '@/app/components/empty';
import { Masthead } from '@/app/components/masthead';
import { Unreachable } from '@/app/components/unreachable';
import { readHead } from '@/app/view/read-head';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';
import { releaseFileHref } from '@/app/view/release-file-href';

/** The policy in plain words, with the numbers of the newest release. */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const reading = await readHead();
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  const { head } = reading;
  const { texts } = speech;
  const page = texts.privacyPage;
  return (
    <>
      <title>{`${page.heading} · ${texts.name}`}</title>
      <Masthead speech={speech} here="/privacy" programme={head.programme} simulated={head.simulated} />
      <main id="content" className="article">
        <h1>{page.heading}</h1>
        <p>{page.intro(head.policy.version)}</p>
        <Article contents={page.contents} sections={texts.privacySections(head.policy)} />
        <p>
          <a href={releaseFileHref(head, '-policy.json')} download>
            {page.file}
          </a>
        </p>
      </main>
    </>
  );
}
