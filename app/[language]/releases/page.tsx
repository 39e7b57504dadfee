import { Empty } from '@/app/components/empty';
import { Masthead } from '@/app/components/masthead';
import { ReleaseList } from '@/app/components/release-list';
import { Unreachable } from '@/app/components/unreachable';
import { readReleases } from '@/app/view/read-releases';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';

/** Every release that there ever was, the withdrawn ones with the reason. */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const reading = await readReleases();
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  const { head, releases } = reading;
  const { texts } = speech;
  return (
    <>
      <title>{`${texts.releases.heading} · ${texts.name}`}</title>
      <Masthead
        speech={speech}
        here="/releases"
        programme={head?.programme}
        simulated={head?.simulated ?? false}
      />
      <main id="content" className="releases">
        <h1>{texts.releases.heading}</h1>
        <p>{texts.releases.intro}</p>
        {head ? null : <p>{texts.releases.none}</p>}
        <ReleaseList speech={speech} releases={releases} newest={head?.number ?? null} />
        <p>
          {texts.downloads.also} <a href="/releases.json">JSON</a> ·{' '}
          <a href="/feeds/releases.atom">{texts.downloads.feed}</a>
        </p>
      </main>
    </>
  );
}
