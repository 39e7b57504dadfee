import { type AskedQuestion, countAlike, readQuestion } from '@/db/repositories/question-desk';
import { may } from '@/lib/access/rights';
import { DataTable } from '../../components/data-table';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { questionTexts as texts } from '../../messages/questions';
import { BeingRead } from '../being-read';
import { CameOf } from '../came-of';
import { Closed } from '../closed';
import { readScope, scopeQuery } from '../scope';
import { AnswerForms } from './answer-forms';
import { CountyMap } from './county-map';
import '@/app/styles/staff/questions.css';

/** One question: the row as it was sent, what may be meant, and the answer. */
export default staffPage('questions.see', async ({ db, person, params, search }) => {
  const id = /^\d{1,12}$/.test(params.id!) ? Number(params.id) : 0;
  const question = id > 0 ? await readQuestion(db, id) : null;
  if (!question) return { title: texts.unknown, status: 404, content: <Sorry text={texts.unknown} /> };
  const scope = readScope(search);
  const next = `/staff/questions/next${scopeQuery(scope, { after: String(id) })}`;
  const alike = await countAlike(db, question);
  return {
    title: texts.oneTitle(question.id),
    content: (
      <>
        <CameOf db={db} id={search.done} />
        <BeingRead db={db} person={person} brief />
        <p className="quiet">
          {`${texts.where(question.fileName, question.record, question.line)} · ${question.laboratory}`}
        </p>
        <Asked question={question} />
        {question.closedAt !== null ? (
          <section className="staff-good">
            <Closed question={question} />
          </section>
        ) : may(person.roles, 'questions.answer') ? (
          <AnswerForms question={question} alike={alike} scope={scope} next={next} all={search.all === '1'} />
        ) : null}
        <p className="staff-pages">
          <a href={next}>{texts.skip}</a>
          <a href={`/staff/questions${scopeQuery(scope)}`}>{texts.allOf}</a>
        </p>
        <CountyMap question={question} />
        <DataTable caption={texts.sent} columns={texts.sentColumns} rows={rowsOf(question)} />
        <p>
          <a href={`/staff/sheets/${question.sheetId}/${question.record}`}>{texts.toRow}</a>
        </p>
      </>
    ),
  };
});

function Asked({ question: { reason } }: { question: AskedQuestion }) {
  return (
    <section className="staff-asked" aria-label={texts.asks}>
      <p>
        <strong>{reason.column}</strong>
        {reason.value ? `: “${reason.value}”` : ''}
      </p>
      <p>{reason.reason}</p>
      <p>
        <strong>{reason.remedy}</strong>
      </p>
    </section>
  );
}

function rowsOf({ raw, reason }: AskedQuestion) {
  return Object.entries(raw)
    .filter(([heading, text]) => text !== '' || heading === reason.column)
    .map(([heading, text]) => ({ key: heading, cells: [heading, text || '–'] }));
}
