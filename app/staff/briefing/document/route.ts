import { UserError } from '@/db/errors';
import { recordWording } from '@/db/repositories/briefings';
import { isEdited, UnknownSentence } from '@/lib/briefing/edit-sentences';
import {
  BRIEFING_KINDS,
  BRIEFING_MEDIA,
  briefingFileName,
  briefingOf,
  makeBriefing,
} from '@/lib/briefing/make-briefing';
import { sourceWords, titleOf } from '@/lib/briefing/title';
import type { Briefing, BriefingNumbers } from '@/lib/briefing/types';
import { publicText } from '@/lib/jobs/public-text';
import { staffRoute } from '../../guard/staff-route';
import { numbersOf, orderOf } from '../read-order';
import { SENTENCE } from '../sentence-fields';

/** The document that the form of the page asks for, with the sentences as they stand in it. */
export const POST = staffRoute('briefing.make', async ({ db, person, request, note }) => {
  const fields = new URLSearchParams(
    [...(await formOf(request))].map(([name, value]) => [name, typeof value === 'string' ? value : '']),
  );
  const kind = BRIEFING_KINDS.find((one) => one === fields.get('kind')) ?? 'pdf';
  const briefing = worded(await numbersOf(db, orderOf(fields)), fields);
  const sentences = briefing.headlines.filter(isEdited);
  const about = `${titleOf(briefing.numbers)} · ${sourceWords(briefing.numbers)}`;
  const bytes = await makeBriefing(briefing, kind);
  if (sentences.length > 0) await recordWording(db, { by: person.name, about, sentences });
  await note(about, { kind, worded: sentences.map(({ key }) => key) });
  return new Response(new Uint8Array(bytes), {
    headers: {
      'Content-Type': BRIEFING_MEDIA[kind],
      'Content-Disposition': `attachment; filename="${briefingFileName(briefing.numbers, kind)}"`,
    },
  });
});

/** @throws UserError where no form was sent */
function formOf(request: Request): Promise<FormData> {
  return request.formData().catch(() => {
    throw new UserError('No choice came with this request.', 'Choose on the page Briefing.');
  });
}

/** @throws UserError for words that cannot be printed */
function worded(numbers: BriefingNumbers, fields: URLSearchParams): Briefing {
  const computed = new Map(briefingOf(numbers).headlines.map((one) => [one.key, one.computed]));
  const edits = [...fields]
    .filter(
      ([name, words]) => name.startsWith(SENTENCE) && words !== computed.get(name.slice(SENTENCE.length)),
    )
    .map(([name, words]) => [name.slice(SENTENCE.length), publicText(words, 'A headline')]);
  try {
    return briefingOf(numbers, Object.fromEntries(edits));
  } catch (error) {
    if (error instanceof UnknownSentence) throw new UserError(error.message, 'Make it shorter or leave it.');
    throw error;
  }
}
