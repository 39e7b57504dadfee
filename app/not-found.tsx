import { NoticePage } from './components/notice-page';
import { en } from './messages/en';

export default function NotFound() {
  return (
    <NoticePage heading={en.notFound.heading}>
      <p>{en.notFound.text}</p>
      <p>
        <a href="/">{en.notFound.home}</a>
      </p>
    </NoticePage>
  );
}
