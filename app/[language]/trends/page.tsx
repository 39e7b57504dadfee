import { NoneShownPage } from '@/app/components/none-shown';
import { TrendsPage } from '@/app/components/trends-page';
import type { Parameters } from '@/app/view/parse-view';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';
import { readTrends } from '@/app/view/read-trends';
import '@/app/styles/trends.css';

/** Trends: the address says of which weed, group, place and release. */
export default async function Page({
  params,
  searchParams,
}: LanguageParams & { searchParams: Promise<Parameters> }) {
  const speech = await readSpeech(params);
  const reading = await readTrends(await searchParams);
  if (reading.state !== 'ready') return <NoneShownPage speech={speech} reading={reading} />;
  return <TrendsPage speech={speech} report={reading.report} />;
}
