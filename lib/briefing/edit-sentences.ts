import type { Sentence } from './types';

/** A sentence that was put in place of a computed one names none that there is, or cannot be printed. */
export class UnknownSentence extends Error {
  override readonly name = 'UnknownSentence';
}

/**
 * Puts edited sentences in place of computed ones; the computed ones stay beside them.
 *
 * @param edits printed words by key; those that say what was computed anyway change nothing
 * @throws UnknownSentence for a key that no sentence has, or for words that are empty or longer than 400 characters
 */
export function editSentences(
  sentences: readonly Sentence[],
  edits: Readonly<Record<string, string>>,
): Sentence[] {
  const keys = sentences.map(({ key }) => key);
  for (const [key, words] of Object.entries(edits)) {
    if (!keys.includes(key))
      throw new UnknownSentence(`There is no sentence “${key}”. There are: ${keys.join(', ')}.`);
    const { length } = words.trim();
    if (length === 0 || length > LONGEST)
      throw new UnknownSentence(`“${key}” has ${length} characters; it takes 1 to ${LONGEST}.`);
  }
  return sentences.map((sentence) => {
    const words = edits[sentence.key];
    return words === undefined ? sentence : { ...sentence, printed: words.trim().replace(/\s+/g, ' ') };
  });
}

/** Whether a person's words stand in place of the computed ones. */
export function isEdited({ computed, printed }: Sentence): boolean {
  return computed !== printed;
}

/** As it stands in a document, with the mark of a person’s words. */
export function printedWords(sentence: Sentence): string {
  return `${sentence.printed}${isEdited(sentence) ? ' †' : ''}`;
}

const LONGEST = 400;
