import { NoPage } from '@/app/components/no-page';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';

/** Any other address. */
export default async function Page({ params }: LanguageParams) {
  return <NoPage speech={await readSpeech(params)} />;
}
