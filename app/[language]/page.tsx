import { NoPage } from '../components/no-page';
import { NoneShownPage } from '../components/none-shown';
import { ReportPage } from '../components/report-page';
import { languageOf } from '../messages/languages';
import type { Parameters } from '../view/parse-view';
import { readOverview } from '../view/read-overview';
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
  const asked = await searchParams;
  const reading = await readReport(asked, speech.texts.jointName);
  if (reading.state !== 'ready') return <NoneShownPage speech={speech} reading={reading} />;
  const { report } = reading;
  // Whoever asks for a view has chosen what to read.
  const overview = isPlain(asked) ? await readOverview(report.head) : null;
  return <ReportPage speech={speech} report={report} overview={overview} />;
}

function isPlain(asked: Parameters): boolean {
  return VIEW.every((name) => asked[name] === undefined);
}

const VIEW = ['species', 'group', 'window', 'by', 'layer', 'place', 'release'];
