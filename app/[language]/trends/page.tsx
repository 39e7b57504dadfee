import { Empty } from '@/app/components/empty';
import { TrendsPage } from '@/app/components/trends-page';
import { Unreachable } from '@/app/components/unreachable';
import type { Parameters } from '@/app/view/parse-view';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';
import { readTrends } from '@/app/view/read-trends';
import '@/app/styles/trends.css';

/** Trends of the newest release: the address says of which weed, group and place. */
export default async function Page({
  params,
  searchParams,
}: LanguageParams & { searchParams: Promise<Parameters> }) {
  const speech = await readSpeech(params);
  const reading = await readTrends(await searchParams);
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  return <TrendsPage speech={speech} report={reading.report} />;
}
