import type { AskedQuestion } from '@/db/repositories/question-desk';
import { type Column, HEADING } from '@/lib/intake/columns';
import { questionTexts as texts } from '../messages/questions';

/** What a person said of a row, in words; columns by the sheet's own headings where these are known. */
export function answerWords({ answer, columns }: Pick<AskedQuestion, 'answer' | 'columns'>): string {
  if (!answer || answer.kind === 'dropped') return texts.dropped;
  if (answer.kind === 'stands') return texts.stands;
  return (Object.entries(answer.cells) as [Column, string][])
    .map(([column, text]) => texts.reads(columns[column] ?? HEADING[column], text))
    .join(', ');
}
