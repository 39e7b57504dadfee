import type { DominatedCounty } from '@/db/repositories/dominance';
import { countyName } from '@/lib/geography/atlas';
import { DataTable } from '../components/data-table';
import { analysisTexts as texts } from '../messages/analysis';
import { pairKey, pairWords } from '../messages/pairs';

const MOST = 50;

/** Counties where one operation sent most: counts, and never who. */
export function Dominance({ counties, share }: { counties: readonly DominatedCounty[]; share: number }) {
  return (
    <section>
      <h2>{texts.dominance}</h2>
      <p>{texts.dominanceText(share)}</p>
      {counties.length === 0 ? (
        <p>{texts.dominanceNone}</p>
      ) : (
        <details>
          <summary>{texts.dominanceCount(counties.length)}</summary>
          <DataTable
            caption={texts.dominance}
            columns={texts.dominanceColumns}
            rows={counties.slice(0, MOST).map((one) => ({
              key: `${one.county} ${pairKey(one)}`,
              cells: [
                countyName(one.county) ?? one.county,
                pairWords(one),
                one.tested,
                one.largest,
                one.operations,
              ],
            }))}
          />
          {counties.length > MOST ? <p>{texts.dominanceMore(counties.length - MOST)}</p> : null}
        </details>
      )}
    </section>
  );
}
