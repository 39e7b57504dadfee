import { LANGUAGES } from '../messages/languages';
import type { Speech } from '../messages/texts';
import type { Overview } from '../view/overview';
import type { Report } from '../view/read-report';
import { reportTitle } from '../view/report-title';
import { viewHref } from '../view/view';
import { Cautions } from './cautions';
import { Downloads } from './downloads';
import { Errata } from './errata';
import { Findings } from './findings';
import { Headline, HeadlineSummary } from './headline';
import { MapSection } from './map-section';
import { Masthead } from './masthead';
import { Methods } from './methods';
import { NumbersTable } from './numbers-table';
import { Opening } from './opening';
import { Fresh, RegionWords } from './overview';
import { ReleaseNote } from './release-note';
import { Trends } from './trends';
import { ViewForm } from './view-form';
import { WaitRoom } from './wait-room';

/** The public page of a release, from the headline down to the cautions. */
export function ReportPage({
  speech,
  report,
  overview = null,
}: {
  speech: Speech;
  report: Report;
  /** Of the front page: what stands before the map of one weed and group. */
  overview?: Overview | null;
}) {
  const { head, errata, view, region } = report;
  const { texts } = speech;
  return (
    <>
      <title>{reportTitle(texts, report)}</title>
      <Masthead
        speech={speech}
        here={viewHref(LANGUAGES[0], view)}
        programme={head.programme}
        simulated={head.simulated}
      />
      <main id="content">
        <WaitRoom words={texts.map.waiting}>
          <ReleaseNote
            speech={speech}
            shown={report}
            hrefOf={(release) => viewHref(speech.language, { ...view, release })}
          />
          <Opening
            front={
              overview && {
                name: <h1 className="region-name">{texts.overviewPage.heading(head.region)}</h1>,
                words: (
                  <>
                    <RegionWords speech={speech} overview={overview} />
                    <Fresh speech={speech} head={head} region={region} overview={overview} />
                  </>
                ),
              }
            }
            below={<Headline speech={speech} report={report} level={2} />}
            alone={
              overview ? null : (
                <>
                  <Headline speech={speech} report={report} level={1} />
                  <HeadlineSummary speech={speech} report={report} />
                </>
              )
            }
            summary={<HeadlineSummary speech={speech} report={report} />}
          >
            <Errata speech={speech} release={head.number} errata={errata} />
            <ViewForm speech={speech} report={report} />
            <MapSection speech={speech} report={report} />
          </Opening>
          <Trends speech={speech} report={report} />
          <Findings speech={speech} report={report} />
          <NumbersTable speech={speech} report={report} />
          <Methods speech={speech} head={head} />
          <Downloads speech={speech} head={head} />
          <Cautions speech={speech} />
        </WaitRoom>
      </main>
    </>
  );
}
