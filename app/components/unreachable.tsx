import { en } from '../messages/en';
import { NoticePage } from './notice-page';

/** The database does not answer. The server turns the meta element into the response's status. */
export function Unreachable() {
  return (
    <NoticePage heading={en.unreachable.heading}>
      <meta name="status" content="503" />
      <p>{en.unreachable.text}</p>
      <p>
        <a href="/">{en.unreachable.again}</a>
      </p>
      <p className="quiet">{en.unreachable.staff}</p>
    </NoticePage>
  );
}
