import { sentenceStart } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease, type ShownRelease } from '../view/asked-release';
import { weedPath } from '../view/find-weed';
import { NoticePage } from './notice-page';

/** An address that names no weed, and all that there are. */
export function UnknownWeed({
  speech,
  asked,
  shown,
}: {
  speech: Speech;
  asked: string;
  shown: ShownRelease;
}) {
  const { texts, at } = speech;
  const { head } = shown;
  const release = heldRelease(shown);
  return (
    <NoticePage speech={speech} heading={texts.weed.unknown(asked.slice(0, 60))} head={head}>
      <meta name="status" content="404" />
      <p>{texts.weed.there}</p>
      <ul>
        {[...new Set(head.pairs.map(({ species }) => species))].map((species) => (
          <li key={species}>
            <a href={at(weedPath(species, { release }))}>
              {sentenceStart(texts.weedName(species, { latin: true }))}
            </a>
          </li>
        ))}
      </ul>
    </NoticePage>
  );
}
