import type { Sentence } from '@/lib/briefing/types';
import { Field } from '../components/field';
import { briefingTexts as texts } from '../messages/briefing';

/** How the names of fields with a sentence begin; its key follows. */
export const SENTENCE = 'sentence-';

/** The headlines, each to be worded otherwise. */
export function SentenceFields({ sentences }: { sentences: readonly Sentence[] }) {
  return sentences.map(({ key, computed }, i) => (
    <Field key={key} name={`${SENTENCE}${key}`} label={texts.sentence(i + 1)} value={computed} lines={3} />
  ));
}
