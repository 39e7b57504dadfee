import { countyName } from '@/lib/geography/atlas';
import type { FullDraftReport } from '@/lib/jobs/draft-report';
import { waitReason } from '@/lib/jobs/outlook-words';
import { countWaiting } from '@/lib/release/revision/count-waiting';
import { DataTable } from '../../../components/data-table';
import { pairWords } from '../../../messages/pairs';
import { releaseTexts as texts } from '../../../messages/releases';

/** What is stored and does not enter the release, and why. */
export function StaysOut({ report }: { report: FullDraftReport }) {
  const { held, waiting, unreported } = report;
  const results = countWaiting(waiting);
  return (
    <section aria-labelledby="stays-out">
      <h2 id="stays-out">{texts.notes}</h2>
      {held + results === 0 ? <p>{texts.nothingOut}</p> : null}
      {held > 0 ? <p>{texts.heldResults(held)}</p> : null}
      {results > 0 ? (
        <>
          <p>{texts.waiting(waiting.length, results)}</p>
          <details>
            <summary>{texts.waitingCaption}</summary>
            <DataTable
              caption={texts.waitingCaption}
              columns={texts.waitingColumns}
              rows={waiting.map(({ county, season, species, group, entering, leaving, corrected, why }) => ({
                key: `${county} ${season} ${species} ${group}`,
                cells: [
                  countyName(county) ?? county,
                  season,
                  pairWords({ species, group }),
                  entering,
                  leaving,
                  corrected,
                  waitReason(why),
                ],
              }))}
            />
          </details>
        </>
      ) : null}
      {unreported.length > 0 ? <p>{texts.untold(unreported)}</p> : null}
    </section>
  );
}
