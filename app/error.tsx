'use client';

import { NoticePage } from './components/notice-page';
import { en } from './messages/en';

/** Anything unforeseen on a page. */
export default function Failed() {
  return (
    <NoticePage heading={en.failed.heading}>
      <p>{en.failed.text}</p>
      <p>
        <a href="/">{en.notFound.home}</a>
      </p>
    </NoticePage>
  );
}
