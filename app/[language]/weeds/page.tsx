import { Empty } from '@/app/components/empty';
import { Unreachable } from '@/app/components/unreachable';
import { WeedsPage } from '@/app/components/weeds-page';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';
import { readWeeds } from '@/app/view/read-weed';
import '@/app/styles/weeds.css';

/** All weeds of the newest release. */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const reading = await readWeeds();
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  return <WeedsPage speech={speech} reading={reading} />;
}
