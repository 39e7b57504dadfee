import type { Speech } from '../messages/texts';
import { NoticePage } from './notice-page';

/** The database does not answer. The server turns the meta element into the response's status. */
export function Unreachable({ speech }: { speech: Speech }) {
  const { unreachable } = speech.texts;
  return (
    <NoticePage speech={speech} heading={unreachable.heading}>
      <meta name="status" content="503" />
      <p>{unreachable.text}</p>
      <p>
        <a href={speech.at('/')}>{unreachable.again}</a>
      </p>
      <p className="quiet">{unreachable.staff}</p>
    </NoticePage>
  );
}
