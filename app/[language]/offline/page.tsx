import { NoticePage } from '@/app/components/notice-page';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';

/**
 * What a browser shows without signal. `public/sw.js` keeps this page, fills the list with the pages that were kept, and
 * takes the words of the note from it.
 */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const { offline } = speech.texts;
  return (
    <NoticePage speech={speech} heading={offline.heading} here="/offline">
      <meta name="robots" content="noindex" />
      <p>{offline.text}</p>
      <h2>{offline.kept}</h2>
      <ul id="kept" className="kept">
        <li>{offline.none}</li>
      </ul>
      <p>{offline.others}</p>
      <p id="kept-note" hidden>
        {offline.note}
      </p>
    </NoticePage>
  );
}
