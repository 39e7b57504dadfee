import type { AskedQuestion } from '@/db/repositories/question-desk';
import { type Column, HEADING } from '@/lib/intake/columns';
import { questionTexts as texts } from '../messages/questions';
import { recordTexts } from '../messages/results';

/** How a question was settled, and what its row is now. */
export function Closed({ question }: { question: AskedQuestion }) {
  const { id, closedAt, answeredBy, outcome, result, sheetId, record } = question;
  return (
    <>
      <p>
        <strong>{texts.before(id)}</strong>: {texts.closed(closedAt!.slice(0, 16).replace('T', ' '))}{' '}
        {answeredBy === null ? texts.closedOtherwise : `${texts.closedBy(answeredBy)} ${wordsOf(question)}.`}{' '}
        {texts.now(recordTexts.outcome[outcome], result)}
      </p>
      <p>
        <a href={`/staff/sheets/${sheetId}/${record}`}>{texts.toRow}</a>
      </p>
    </>
  );
}

function wordsOf({ answer, columns }: AskedQuestion): string {
  if (!answer || answer.kind === 'dropped') return texts.dropped;
  if (answer.kind === 'stands') return texts.stands;
  return (Object.entries(answer.cells) as [Column, string][])
    .map(([column, text]) => texts.reads(columns[column] ?? HEADING[column], text))
    .join(', ');
}
