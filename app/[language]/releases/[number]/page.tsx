import { NoticePage } from '@/app/components/notice-page';
import { ReleaseList } from '@/app/components/release-list';
import { ReleasePage } from '@/app/components/release-page';
import { Unreachable } from '@/app/components/unreachable';
import { WithdrawnRelease } from '@/app/components/withdrawn-release';
import { readRelease } from '@/app/view/read-releases';
import { readSpeech } from '@/app/view/read-speech';

/** One release: what changed, what it holds, its files, how to cite it; or why it was taken back. */
export default async function Page({ params }: { params: Promise<{ language: string; number: string }> }) {
  const speech = await readSpeech(params);
  const asked = decodeURIComponent((await params).number);
  const reading = await readRelease(asked);
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  if (reading.state === 'ready') return <ReleasePage speech={speech} {...reading} />;
  if (reading.state === 'withdrawn') return <WithdrawnRelease speech={speech} {...reading} />;
  const { unknown } = speech.texts.releases;
  const { releases, head } = reading;
  return (
    <NoticePage speech={speech} heading={unknown.heading(asked.slice(0, 60))} head={head}>
      <meta name="status" content="404" />
      <p>{releases.length > 0 ? unknown.there : speech.texts.releases.none}</p>
      <ReleaseList speech={speech} releases={releases} newest={head?.number ?? null} />
    </NoticePage>
  );
}
