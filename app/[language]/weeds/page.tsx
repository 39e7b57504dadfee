import { NoneShownPage } from '@/app/components/none-shown';
import { WeedsPage } from '@/app/components/weeds-page';
import type { Parameters } from '@/app/view/parse-view';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';
import { readWeeds } from '@/app/view/read-weed';
import '@/app/styles/weeds.css';

/** All weeds of a release. */
export default async function Page({
  params,
  searchParams,
}: LanguageParams & { searchParams: Promise<Parameters> }) {
  const speech = await readSpeech(params);
  const reading = await readWeeds(await searchParams);
  if (reading.state !== 'ready') return <NoneShownPage speech={speech} reading={reading} />;
  return <WeedsPage speech={speech} reading={reading} />;
}
