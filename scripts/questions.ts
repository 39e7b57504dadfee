/**
 * `npm run questions`: what intake asks, and a person's answers. An answered wording can be remembered for the laboratory.
 */
import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import { populationOfRecord } from '@/db/repositories/facts';
import { countQuestions, type OpenQuestion, openQuestions } from '@/db/repositories/questions';
import type { Answer } from '@/db/schema/intake';
import { amendStored } from '@/lib/jobs/amend-stored';
import { outlookOf } from '@/lib/jobs/outlook';
import { outlookWords } from '@/lib/jobs/outlook-words';
import { amendedLines } from './support/amended-lines';
import { UsageError } from './support/command';
import { readCells, readNumber } from './support/options';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE = `npm run questions -- [list] [--sheet IMPORT] [--code CODE] [--limit N]
       npm run questions -- show ID
       npm run questions -- answer ID TEXT | COLUMN=TEXT … [--remember] [--why TEXT] [--by NAME]
       npm run questions -- stand ID | drop ID [--why TEXT] [--by NAME]
  answer: the asked cell (or the named ones) is read as TEXT. --remember: so in every sheet of the laboratory.
  stand: the row counts as it is. drop: it does not count.`;

await staffCommand(
  USAGE,
  {
    sheet: { type: 'string' },
    code: { type: 'string' },
    limit: { type: 'string' },
    remember: { type: 'boolean' },
    why: { type: 'string' },
    by: { type: 'string' },
  },
  async (db, { values, words }) => {
    const [act = 'list', id, ...texts] = words;
    if (act === 'list') {
      return list(db, {
        ...(values.sheet === undefined ? {} : { sheetId: readNumber(values.sheet, '--sheet', USAGE) }),
        ...(values.code === undefined ? {} : { code: values.code }),
        ...(values.limit === undefined ? {} : { limit: readNumber(values.limit, '--limit', USAGE) }),
      });
    }
    const question = await questionOf(db, readNumber(id, 'ID', USAGE));
    if (act === 'show') return show(question);
    const answer = answerOf(act, question, texts);
    const order = { by: actor(values.by), why: values.why ?? '', remember: values.remember ?? false };
    const amended = await amendStored(db, { ...question, ...order, question: question.id, answer });
    for (const line of amendedLines(amended)) say(line);
    const population = await populationOfRecord(db, question);
    for (const line of outlookWords(await outlookOf(db, population ? [population] : []))) say(`  ${line}`);
  },
);

async function list(db: StaffDatabase, filter: Parameters<typeof openQuestions>[1]): Promise<void> {
  const counts = await countQuestions(db);
  if (counts.length === 0) return say('No question waits.');
  for (const question of await openQuestions(db, filter)) {
    const { id, fileName, record, reason, alike } = question;
    const others = alike > 1 ? ` (${alike} rows say the same)` : '';
    say(
      `${id}  ${fileName}, record ${record}, ${reason.column}: ${reason.reason} ${reason.remedy} [${reason.code}]${others}`,
    );
  }
  say(
    `${counts.reduce((sum, { count }) => sum + count, 0)} wait: ${counts.map(({ code, count }) => `${count} ${code}`).join(', ')}`,
  );
}

function show({ fileName, record, line, laboratory, reason, raw, alike }: OpenQuestion): void {
  say(`${fileName} (${laboratory}), record ${record}, line ${line}`);
  for (const [heading, text] of Object.entries(raw)) if (text !== '') say(`  ${heading}: ${text}`);
  say(`${reason.column}: ${reason.reason} ${reason.remedy} [${reason.code}]`);
  if (reason.candidates.length > 0) say(`Answers that fit: ${reason.candidates.join(', ')}`);
  if (alike > 1)
    say(`${alike} rows of this laboratory wait with the same wording: --remember answers all of them.`);
}

async function questionOf(db: StaffDatabase, id: number): Promise<OpenQuestion> {
  const [question] = await openQuestions(db, { id });
  if (question) return question;
  throw new UserError(`There is no open question ${id}.`, 'npm run questions lists those that wait.');
}

function answerOf(act: string, { reason }: OpenQuestion, texts: readonly string[]): Answer {
  if (act === 'stand' && texts.length === 0) return { kind: 'stands', code: reason.code };
  if (act === 'drop' && texts.length === 0) return { kind: 'dropped' };
  if (act !== 'answer' || texts.length === 0) throw new UsageError(`Usage: ${USAGE}`);
  const [text] = texts;
  if (texts.length > 1 || /^[a-z ]+=/i.test(text!)) return { kind: 'reads', cells: readCells(texts, USAGE) };
  if (reason.key === null) {
    throw new UsageError(
      `This question is about the whole row: name the cells (COLUMN=TEXT), stand or drop.\nUsage: ${USAGE}`,
    );
  }
  return { kind: 'reads', cells: { [reason.key]: text! } };
}
