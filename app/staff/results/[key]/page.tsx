import { type ResultTray, readResult } from '@/db/repositories/results';
import { DataTable } from '../../components/data-table';
import { LateNote } from '../../components/late-note';
import { Pairs } from '../../components/pairs';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { resultTexts as texts } from '../../messages/results';
import { COLUMN_NAMES, RESULT_COLUMNS } from '../columns';
import '@/app/styles/staff/results.css';

/** One result: what it says, and the rows that it is made of. */
export default staffPage('results.see', async ({ db, params }) => {
  const found = await readResult(db, params.key!);
  if (!found) return { title: texts.unknown, status: 404, content: <Sorry text={texts.unknownText} /> };
  const { result, trays } = found;
  return {
    title: texts.oneTitle(result.sample),
    cautions: true,
    content: (
      <>
        <h2>{texts.says}</h2>
        <Pairs
          pairs={COLUMN_NAMES.filter((name) => name !== 'sheet' && name !== 'record').map((name) => {
            const { heading, text } = RESULT_COLUMNS[name];
            return [heading, text(result) || '–'] as const;
          })}
        />
        <LateNote db={db} unit={result} changedAt={null} />
        <DataTable caption={texts.rows} columns={texts.rowsColumns} rows={trays.map(rowOf)} />
        <p>
          <a href="/staff/results">{texts.back}</a>
        </p>
      </>
    ),
  };
});

function rowOf({ sheetId, record, fileName, run, replicate, treated, alive, ...tray }: ResultTray) {
  const { result, kind, runValid, runWhy } = tray;
  return {
    key: `${sheetId} ${record}`,
    cells: [
      <a key="row" href={`/staff/sheets/${sheetId}/${record}`}>{`${fileName}, row ${record}`}</a>,
      run ?? '',
      replicate ?? '',
      treated ?? '',
      alive ?? '',
      result ?? kind,
      runValid === null ? '' : `${runValid ? texts.runCounts : texts.runVoid}${runWhy ? `: ${runWhy}` : ''}`,
    ],
  };
}
