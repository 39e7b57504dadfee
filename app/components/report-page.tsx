import { SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import type { Report } from '../view/read-report';
import { reportTitle } from '../view/report-title';
import { Cautions } from './cautions';
import { Downloads } from './downloads';
import { Errata } from './errata';
import { Findings } from './findings';
import { Headline } from './headline';
import { MapSection } from './map-section';
import { Masthead } from './masthead';
import { Methods } from './methods';
import { NumbersTable } from './numbers-table';
import { Trends } from './trends';
import { ViewForm } from './view-form';

/** The public page of a release, from the headline down to the cautions. */
export function ReportPage({ report }: { report: Report }) {
  return (
    <>
      <title>{reportTitle(report)}</title>
      <Masthead programme={report.head.programme} notice={report.head.simulated ? SIMULATED_NOTICE : null} />
      <main id="content">
        <Headline report={report} />
        <Errata
          release={report.head.number}
          errata={report.errata}
          folder={`/releases/${report.head.number}/`}
        />
        <ViewForm report={report} />
        <MapSection report={report} />
        <Trends report={report} />
        <Findings report={report} />
        <NumbersTable report={report} />
        <Methods head={report.head} />
        <Downloads head={report.head} />
        <Cautions />
      </main>
    </>
  );
}
