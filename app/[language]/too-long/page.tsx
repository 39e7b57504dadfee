import { NoticePage } from '@/app/components/notice-page';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';

/** Whatever address is longer than any view needs. The server turns the meta element into the response's status. */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const { tooLong } = speech.texts.layers;
  return (
    <NoticePage speech={speech} heading={tooLong.heading}>
      <meta name="status" content="414" />
      <p>{tooLong.text}</p>
      <p>
        <a href={speech.at('/')}>{speech.texts.notFound.home}</a>
      </p>
    </NoticePage>
  );
}
