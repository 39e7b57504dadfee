import { Empty } from './components/empty';
import { ReportPage } from './components/report-page';
import { Unreachable } from './components/unreachable';
import type { Parameters } from './view/parse-view';
import { readReport } from './view/read-report';

/** The one public page: the address says what to show. */
export default async function Page({ searchParams }: { searchParams: Promise<Parameters> }) {
  const reading = await readReport(await searchParams);
  if (reading.state === 'empty') return <Empty />;
  if (reading.state === 'unreachable') return <Unreachable />;
  return <ReportPage report={reading.report} />;
}
