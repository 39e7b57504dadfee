import type { FullDraftReport } from '@/lib/jobs/draft-report';
import type { FindingDifference } from '@/lib/jobs/finding-changes';
import { periodLabel } from '@/lib/vocabulary/terms';
import { DataTable } from '../../../components/data-table';
import { pairKey, pairWords } from '../../../messages/pairs';
import { releaseTexts as texts } from '../../../messages/releases';

/** How the draft differs from the release before: cells, and what its findings say. */
export function Changes({ report }: { report: FullDraftReport }) {
  const { changes, findingChanges } = report;
  if (!changes) return <p>{texts.firstRelease}</p>;
  return (
    <section aria-labelledby="changes">
      <h2 id="changes">{texts.changesHeading(changes.since.number)}</h2>
      <p>{texts.changesAll(changes.all, changes.same)}</p>
      {changes.seasons.length > 0 ? <p>{texts.newSeasons(changes.seasons)}</p> : null}
      {changes.windows.length > 0 ? <p>{texts.newWindows(changes.windows.map(periodLabel))}</p> : null}
      {changes.byPair.length > 0 ? (
        <DataTable
          caption={texts.changesCaption}
          columns={texts.changesColumns}
          rows={changes.byPair.map((pair) => ({
            key: pairKey(pair),
            cells: [pairWords(pair), pair.appeared, pair.changed, pair.hidden, pair.shown, pair.disappeared],
          }))}
        />
      ) : null}
      <h3>{texts.findings}</h3>
      {findingChanges.length === 0 ? <p>{texts.noFindings}</p> : <FindingChanges list={findingChanges} />}
    </section>
  );
}

/** By weed and group, each opened by whoever wants to read it. */
function FindingChanges({ list }: { list: readonly FindingDifference[] }) {
  const pairs = [...new Map(list.map((one) => [pairKey(one), one])).values()];
  return pairs.map((pair) => {
    const own = list.filter((one) => pairKey(one) === pairKey(pair));
    return (
      <details key={pairKey(pair)}>
        <summary>
          {pairWords(pair)} ({own.length})
        </summary>
        <ul className="staff-list">
          {own.map(({ name, before, after }) => (
            <li key={name}>
              {before === null ? null : (
                <>
                  <span className="quiet">{texts.findingBefore}</span> {before}
                  <br />
                </>
              )}
              {after === null ? (
                texts.findingGone
              ) : (
                <>
                  <span className="quiet">{before === null ? texts.findingNew : texts.findingNow}</span>{' '}
                  {after}
                </>
              )}
            </li>
          ))}
        </ul>
      </details>
    );
  });
}
