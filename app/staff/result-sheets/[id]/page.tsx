import { may } from '@/lib/access/rights';
import {
  checkWords,
  ownCautions,
  resultWords,
  SHEET,
  sampleWords,
  testCells,
} from '@/lib/briefing/result-sheet/sheet-words';
import { resultSheets } from '@/lib/jobs/result-sheets';
import { today } from '@/lib/jobs/today';
import { ActionForm } from '../../components/action-form';
import { DataTable } from '../../components/data-table';
import { Field } from '../../components/field';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { sheetTexts as texts } from '../../messages/result-sheets';
import { markReported } from '../actions';

/** The result sheet of one sample: what its sender is told. */
export default staffPage('samples.see', async ({ db, person, programme, params }) => {
  const id = Number(params.id);
  const isId = Number.isSafeInteger(id) && id > 0 && id < 2 ** 31;
  const [sheet] = programme && isId ? await resultSheets(db, [id]) : [];
  if (!sheet) return { title: texts.title, content: <Sorry text={texts.unknown} /> };
  const { reported } = sheet;
  return {
    title: SHEET.title(sheet.sample),
    cautions: true,
    content: (
      <>
        {sampleWords(sheet).map((line) => (
          <p key={line} className="quiet">
            {line}
          </p>
        ))}
        <p className="staff-headline">{resultWords(sheet)}</p>
        <DataTable
          caption={SHEET.caption}
          columns={SHEET.columns}
          rows={sheet.tests.map((test, at) => ({ key: at, cells: testCells(test) }))}
        />
        <section aria-labelledby="meaning">
          <h2 id="meaning">{SHEET.meaning}</h2>
          {sheet.definitions.map(({ version, words }) => (
            <p key={version}>{words}</p>
          ))}
        </section>
        <section aria-labelledby="checks">
          <h2 id="checks">{SHEET.checks}</h2>
          <ul className="staff-list">
            {checkWords(sheet).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
        <section aria-labelledby="own-cautions">
          <h2 id="own-cautions">{SHEET.own}</h2>
          <ul className="staff-list">
            {ownCautions(sheet).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
        <section aria-labelledby="ask">
          <h2 id="ask">{SHEET.ask}</h2>
          <p>{sheet.contact || SHEET.askNobody}</p>
          {sheet.regulatedNotice ? <p>{sheet.regulatedNotice}</p> : null}
        </section>
        <section className="staff-panel" aria-labelledby="hand-over">
          <h2 id="hand-over">{texts.pdf}</h2>
          <p>
            <a className="staff-button" href={`/staff/result-sheets/document?ids=${sheet.id}`}>
              {texts.pdfButton}
            </a>
          </p>
          <p>{reported ? texts.handed(reported) : texts.notHanded}</p>
          {!reported && may(person.roles, 'samples.report') ? (
            <ActionForm action={markReported} submit={texts.markOne} label={texts.markOne}>
              <input type="hidden" name="ids" value={sheet.id} />
              <Field name="on" type="date" label={texts.on} value={today()} required />
            </ActionForm>
          ) : null}
        </section>
      </>
    ),
  };
});
