import { en } from '../messages/en';
import { NoticePage } from './notice-page';

/** No release yet. */
export function Empty() {
  return (
    <NoticePage heading={en.empty.heading}>
      <p>{en.empty.text}</p>
      <p>
        {en.empty.staff} <code>npm run release</code>
      </p>
    </NoticePage>
  );
}
