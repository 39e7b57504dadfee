import type { AskedQuestion } from '@/db/repositories/question-desk';
import { questionTexts as texts } from '../messages/questions';
import { recordTexts } from '../messages/results';
import { answerWords } from './answer-words';

/** How a question was settled, and what its row is now. */
export function Closed({ question }: { question: AskedQuestion }) {
  const { id, closedAt, answeredBy, outcome, result, sheetId, record } = question;
  return (
    <>
      <p>
        <strong>{texts.before(id)}</strong>: {texts.closed(closedAt!.slice(0, 16).replace('T', ' '))}{' '}
        {answeredBy === null
          ? texts.closedOtherwise
          : `${texts.closedBy(answeredBy)} ${answerWords(question)}.`}{' '}
        {texts.now(recordTexts.outcome[outcome], result)}
      </p>
      <p>
        <a href={`/staff/sheets/${sheetId}/${record}`}>{texts.toRow}</a>
      </p>
    </>
  );
}
