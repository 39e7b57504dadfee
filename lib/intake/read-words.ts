import { saysNothing } from '@/lib/vocabulary/normal-text';
import { ASSAYS, type Assay, DESIGNS, type Design } from '@/lib/vocabulary/terms';
import { plainWords, wordTable } from './plain-words';
import { NO, YES } from './read-check';
import { asks, quoted, type Reading, read } from './reading';

/** Whether the sample may enter public counts: only a plain yes is one. */
export function readConsent(text: string): Reading<boolean> {
  const word = plainWords(text);
  if (YES.has(word)) return read(true);
  if (NO.has(word)) return read(false);
  return read(false, saysNothing(text) ? 'CONSENT_BLANK' : 'CONSENT_UNREADABLE');
}

/** How the field was chosen; blank = submitted. */
export function readDesign(text: string): Reading<Design> {
  const design = saysNothing(text) ? 'submitted' : DESIGN_WORDS.get(plainWords(text));
  if (design) return read(design);
  const reason = `Design ${quoted(text)} is not known.`;
  const hints = { candidates: DESIGNS, memorable: true };
  return asks('design', 'DESIGN_UNKNOWN', reason, 'Is it submitted, random, follow-up or roadside?', hints);
}

/** How the population was screened; blank = whole plant. */
export function readAssay(text: string): Reading<Assay> {
  const assay = saysNothing(text) ? 'whole plant' : ASSAY_WORDS.get(plainWords(text));
  if (assay) return read(assay);
  const reason = `Assay ${quoted(text)} is not known.`;
  const hints = { candidates: ASSAYS, memorable: true };
  return asks('assay', 'ASSAY_UNKNOWN', reason, 'Is it whole plant, soil-applied or molecular?', hints);
}

const DESIGN_WORDS = wordTable<Design>({
  'submitted|grower submitted|submission|grower|passive|sent in|suspect': 'submitted',
  'random|random survey|systematic random|stratified|stratified random': 'random',
  'follow up|followup|revisit|resample': 'follow-up',
  'roadside|road side': 'roadside',
});

const ASSAY_WORDS = wordTable<Assay>({
  'whole plant|wholeplant|greenhouse|pot|foliar|post|postemergence|post emergence': 'whole plant',
  'soil applied|soil|pre|preemergence|pre emergence': 'soil-applied',
  'molecular|dna|dna test|pcr|genotyping|genotype|sequencing|marker': 'molecular',
});
