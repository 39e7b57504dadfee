import { briefingPdf } from './briefing-pdf';
import { briefingSlides } from './briefing-slides';
import { editSentences } from './edit-sentences';
import { headlines } from './headlines';
import type { Briefing, BriefingNumbers } from './types';

/** The kinds of document that a briefing is made as. */
export const BRIEFING_KINDS = ['pdf', 'pptx'] as const;
export type BriefingKind = (typeof BRIEFING_KINDS)[number];

/**
 * A briefing of these numbers, with its headlines.
 *
 * @param edits words that a person puts in place of computed headlines, by key
 * @throws UnknownSentence as `editSentences`
 */
export function briefingOf(numbers: BriefingNumbers, edits: Readonly<Record<string, string>> = {}): Briefing {
  return { numbers, headlines: editSentences(headlines(numbers), edits) };
}

/** A briefing as a document: the same briefing and kind, the same bytes. */
export async function makeBriefing(briefing: Briefing, kind: BriefingKind): Promise<Uint8Array> {
  return { pdf: briefingPdf, pptx: briefingSlides }[kind](briefing);
}
