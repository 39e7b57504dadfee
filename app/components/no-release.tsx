import type { Speech } from '../messages/texts';
import type { NoReleaseReading } from '../view/read-releases';
import { NoticePage } from './notice-page';
import { ReleaseList } from './release-list';
import { WithdrawnRelease } from './withdrawn-release';

/** Where an address asks for a release that does not stand: why it was taken back, or those that there are. */
export function NoRelease({
  speech,
  asked,
  reading,
}: {
  speech: Speech;
  asked: string;
  reading: NoReleaseReading;
}) {
  if (reading.state === 'withdrawn') return <WithdrawnRelease speech={speech} {...reading} />;
  const { unknown, none } = speech.texts.releases;
  const { releases, head } = reading;
  return (
    <NoticePage speech={speech} heading={unknown.heading(asked.slice(0, 60))} head={head}>
      <meta name="status" content="404" />
      <p>{releases.length > 0 ? unknown.there : none}</p>
      <ReleaseList speech={speech} releases={releases} newest={head?.number ?? null} />
    </NoticePage>
  );
}
