import type { Speech } from '../messages/texts';
import { NoticePage } from './notice-page';

/** An address that leads nowhere. The server turns the meta element into the response's status. */
export function NoPage({ speech }: { speech: Speech }) {
  const { notFound } = speech.texts;
  return (
    <NoticePage speech={speech} heading={notFound.heading}>
      <meta name="status" content="404" />
      <p>{notFound.text}</p>
      <p>
        <a href={speech.at('/')}>{notFound.home}</a>
      </p>
    </NoticePage>
  );
}
