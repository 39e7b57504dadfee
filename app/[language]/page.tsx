import { Empty } from '../components/empty';
import { NoPage } from '../components/no-page';
import { NoRelease } from '../components/no-release';
import { ReportPage } from '../components/report-page';
import { Unreachable } from '../components/unreachable';
import { languageOf } from '../messages/languages';
import type { Parameters } from '../view/parse-view';
import { readReport } from '../view/read-report';
import { type LanguageParams, readSpeech } from '../view/read-speech';

/** The map of the region: the address says what to show. */
export default async function Page({
  params,
  searchParams,
}: LanguageParams & { searchParams: Promise<Parameters> }) {
  // An address of one part that is no page of ours ends up here.
  if (!languageOf((await params).language)) return <NoPage speech={await readSpeech(params)} />;
  const speech = await readSpeech(params);
  const reading = await readReport(await searchParams);
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  if (reading.state === 'no release') return <NoRelease speech={speech} {...reading} />;
  return <ReportPage speech={speech} report={reading.report} />;
}
