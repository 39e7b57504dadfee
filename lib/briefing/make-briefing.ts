import { briefingPdf } from './briefing-pdf';
import { briefingSlides } from './briefing-slides';
import { editSentences } from './edit-sentences';
import { headlines } from './headlines';
import type { Briefing, BriefingNumbers } from './types';

/** The kinds of document that a briefing is made as. */
export const BRIEFING_KINDS = ['pdf', 'pptx'] as const;
export type BriefingKind = (typeof BRIEFING_KINDS)[number];

/** Media types of the kinds. */
export const BRIEFING_MEDIA: Readonly<Record<BriefingKind, string>> = {
  pdf: 'application/pdf',
  pptx: 'application/vnd.openxmlformats-officedocument.presentationml.presentation',
};

/** `briefing-kchsc-9-27-release-3.pdf`, or `briefing-private.pdf`. */
export function briefingFileName({ source, species, groups }: BriefingNumbers, kind: BriefingKind): string {
  if (source.kind === 'private') return `briefing-private.${kind}`;
  const told = groups.map(({ group }) => group).join('-');
  return `briefing-${species}-${told}-release-${source.number}.${kind}`.toLowerCase();
}

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
