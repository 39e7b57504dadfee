import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import type { Speech } from '../messages/texts';
import { CountyList } from './county-list';
import { NoticePage } from './notice-page';

/** An address that names no county of the region, and all that there are. */
export function UnknownCounty({
  speech,
  asked,
  head,
  region,
}: {
  speech: Speech;
  asked: string;
  head: ReleaseHead;
  region: Region;
}) {
  const { county } = speech.texts;
  return (
    <NoticePage speech={speech} heading={county.unknown(asked.slice(0, 60))} head={head}>
      <meta name="status" content="404" />
      <p>{county.there(region.name)}</p>
      <CountyList speech={speech} region={region} />
    </NoticePage>
  );
}
