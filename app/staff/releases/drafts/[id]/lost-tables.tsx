import { count } from '@/app/messages/en/format';
import type { FullDraftReport } from '@/lib/jobs/draft-report';
import { DataTable } from '../../../components/data-table';
import { pairKey, pairWords } from '../../../messages/pairs';
import { releaseTexts as texts } from '../../../messages/releases';

/** How much of each public table is shown, in all and by weed and group. */
export function LostTables({ report }: { report: FullDraftReport }) {
  return (
    <section>
      <h2>{texts.lost}</h2>
      <p>{texts.lostText}</p>
      {report.warning ? <p className="staff-wrong">{report.warning}</p> : null}
      <DataTable
        caption={texts.lost}
        columns={texts.lostColumns}
        rows={report.shares.map((line) => ({
          key: line.level,
          cells: [
            texts.levels[line.level],
            count(line.cells),
            texts.share(line.published, line.cells),
            texts.share(line.withheld, line.cells),
            texts.share(line.withheld - line.primary, line.cells),
            texts.share(line.leftOut, line.cells),
            count(line.populations),
            texts.share(line.inside, line.populations),
          ],
        }))}
      />
      <details>
        <summary>{texts.byPair}</summary>
        <DataTable
          caption={texts.byPair}
          columns={texts.byPairColumns}
          rows={report.pairShares.map(({ levels: [windowed, , , state], ...pair }) => ({
            key: pairKey(pair),
            cells: [
              pairWords(pair),
              count(windowed!.populations),
              texts.share(windowed!.inside, windowed!.populations),
              texts.share(state!.published, state!.cells),
            ],
          }))}
        />
      </details>
    </section>
  );
}
