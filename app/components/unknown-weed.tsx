import type { ReleaseHead } from '@/lib/release/types';
import { sentenceStart } from '../messages/format';
import type { Speech } from '../messages/texts';
import { weedPath } from '../view/find-weed';
import { NoticePage } from './notice-page';

/** An address that names no weed, and all that there are. */
export function UnknownWeed({ speech, asked, head }: { speech: Speech; asked: string; head: ReleaseHead }) {
  const { texts, at } = speech;
  return (
    <NoticePage speech={speech} heading={texts.weed.unknown(asked.slice(0, 60))}>
      <meta name="status" content="404" />
      <p>{texts.weed.there}</p>
      <ul>
        {[...new Set(head.pairs.map(({ species }) => species))].map((species) => (
          <li key={species}>
            <a href={at(weedPath(species))}>{sentenceStart(texts.weedName(species, { latin: true }))}</a>
          </li>
        ))}
      </ul>
    </NoticePage>
  );
}
