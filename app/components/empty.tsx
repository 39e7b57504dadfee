import type { Speech } from '../messages/texts';
import { NoticePage } from './notice-page';

/** No release yet. */
export function Empty({ speech }: { speech: Speech }) {
  const { empty } = speech.texts;
  return (
    <NoticePage speech={speech} heading={empty.heading}>
      <p>{empty.text}</p>
      <p>
        {empty.staff} <code>npm run release</code>
      </p>
    </NoticePage>
  );
}
