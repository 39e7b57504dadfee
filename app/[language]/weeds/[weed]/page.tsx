import { NoneShownPage } from '@/app/components/none-shown';
import { UnknownWeed } from '@/app/components/unknown-weed';
import { WeedPage } from '@/app/components/weed-page';
import { asAsked } from '@/app/view/as-asked';
import type { Parameters } from '@/app/view/parse-view';
import { readSpeech } from '@/app/view/read-speech';
import { readWeed } from '@/app/view/read-weed';
import '@/app/styles/weeds.css';

/** One weed, asked for by its EPPO code or a name. */
export default async function Page({
  params,
  searchParams,
}: {
  params: Promise<{ language: string; weed: string }>;
  searchParams: Promise<Parameters>;
}) {
  const speech = await readSpeech(params);
  const asked = asAsked((await params).weed);
  const reading = await readWeed(asked, await searchParams);
  if (reading.state === 'unknown') return <UnknownWeed speech={speech} asked={asked} shown={reading} />;
  if (reading.state !== 'ready') return <NoneShownPage speech={speech} reading={reading} />;
  return <WeedPage speech={speech} report={reading.report} />;
}
