import type { AskedQuestion, QuestionScope } from '@/db/repositories/question-desk';
import { COLUMNS, HEADING } from '@/lib/intake/columns';
import { ActionForm } from '../../components/action-form';
import { ChoiceField, Field } from '../../components/field';
import { questionTexts as texts } from '../../messages/questions';
import { answerQuestion, dropQuestion, standQuestion } from '../actions';
import { AnswerKeys } from './answer-keys';
import { Candidates } from './candidates';

/** The ways to answer a question: read a cell otherwise, let the row stand, or leave it out. */
export function AnswerForms(props: {
  question: AskedQuestion;
  /** Rows that say the same. */
  alike: number;
  scope: QuestionScope;
  /** Address of the next question. */
  next: string;
  /** True where the text is to be explained for all rows. */
  all: boolean;
}) {
  const { question, alike, scope, next, all } = props;
  const { reason, laboratory } = question;
  const hidden = <Hidden id={question.id} scope={scope} />;
  return (
    <AnswerKeys next={next} draft={`question ${question.id}`}>
      <div className="staff-two">
        <section aria-labelledby="answer">
          <h2 id="answer">{texts.answer}</h2>
          <ActionForm action={answerQuestion} submit={texts.submit} label={texts.answer}>
            {hidden}
            {reason.key === null ? (
              <>
                <ChoiceField name="column" label={texts.column} options={columnsOf(question)} required />
                <Field name="text" label={texts.text} required />
              </>
            ) : (
              <Candidates legend={texts.candidates(reason.column)} candidates={reason.candidates} />
            )}
            {reason.memorable && reason.value !== '' ? (
              <label className="staff-tick">
                <input type="checkbox" name="remember" value="1" defaultChecked={all} />
                <span>{texts.remember(alike, laboratory)}</span>
              </label>
            ) : null}
            <Field name="why" label={texts.why} />
          </ActionForm>
        </section>
        <section aria-labelledby="otherwise">
          <h2 id="otherwise">{texts.otherwise}</h2>
          {reason.mayStand ? (
            <ActionForm action={standQuestion} submit={texts.stand} label={texts.stand}>
              {hidden}
              <p>{texts.standText}</p>
              <Field name="why" label={texts.why} />
            </ActionForm>
          ) : null}
          <ActionForm action={dropQuestion} submit={texts.drop} label={texts.drop} grave>
            {hidden}
            <p>{texts.dropText}</p>
            <Field name="why" label={texts.why} />
          </ActionForm>
        </section>
      </div>
    </AnswerKeys>
  );
}

function Hidden({ id, scope: { sheetId, laboratory, code } }: { id: number; scope: QuestionScope }) {
  const fields = { question: id, sheet: sheetId, laboratory, code };
  return Object.entries(fields).map(([name, value]) =>
    value === undefined ? null : <input key={name} type="hidden" name={name} value={value} />,
  );
}

function columnsOf({ columns }: AskedQuestion) {
  return COLUMNS.map((column) => [column, columns[column] ?? HEADING[column]] as const);
}
