import { saysNothing } from '@/lib/vocabulary/normal-text';
import type { Assay, Design } from '@/lib/vocabulary/terms';
import { asks, quoted, type Reading, read, refuses } from './reading';

/** Whether the susceptible check was killed, as it must be for a run to count. */
export function readCheck(text: string): Reading<true> {
  const word = plain(text);
  if (YES.has(word) || CHECK_KILLED.has(word)) return read(true);
  if (NO.has(word) || CHECK_LIVED.has(word)) {
    const reason = 'The susceptible check survived: the run is void.';
    return refuses(
      'check',
      'CHECK_FAILED',
      reason,
      'Repeat the run. The sample counts as received and testable.',
    );
  }
  const question = 'Was the susceptible check killed in this run?';
  if (saysNothing(text)) return asks('check', 'CHECK_MISSING', 'S check is blank.', question);
  return asks('check', 'CHECK_UNREADABLE', `S check says ${quoted(text)}.`, question);
}

/** Whether the sample may enter public counts: only a plain yes is one. */
export function readConsent(text: string): Reading<boolean> {
  const word = plain(text);
  if (YES.has(word)) return read(true);
  if (NO.has(word)) return read(false);
  return read(false, saysNothing(text) ? 'CONSENT_BLANK' : 'CONSENT_UNREADABLE');
}

/** How the field was chosen; blank = submitted. */
export function readDesign(text: string): Reading<Design> {
  const design = saysNothing(text) ? 'submitted' : DESIGN_WORDS.get(plain(text));
  if (design) return read(design);
  const reason = `Design ${quoted(text)} is not known.`;
  return asks('design', 'DESIGN_UNKNOWN', reason, 'Is it submitted, random, follow-up or roadside?');
}

/** How the population was screened; blank = whole plant. */
export function readAssay(text: string): Reading<Assay> {
  const assay = saysNothing(text) ? 'whole plant' : ASSAY_WORDS.get(plain(text));
  if (assay) return read(assay);
  const reason = `Assay ${quoted(text)} is not known.`;
  return asks('assay', 'ASSAY_UNKNOWN', reason, 'Is it whole plant, soil-applied or molecular?');
}

function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^a-z]+/g, ' ')
    .trim();
}

const words = (text: string) => new Set(text.split('|'));
const table = <T>(entries: Record<string, T>) =>
  new Map(Object.entries(entries).flatMap(([key, value]) => key.split('|').map((word) => [word, value])));

const YES = words('y|yes|ok|okay|true|agreed|yes please|x');
const NO = words('n|no|false|not|never');
const CHECK_KILLED = words('dead|killed|died|all dead|controlled|pass|passed|valid|s dead|susceptible');
const CHECK_LIVED = words('alive|survived|lived|fail|failed|void|invalid|not controlled|not killed');

const DESIGN_WORDS = table<Design>({
  'submitted|grower submitted|submission|grower|passive|sent in|suspect': 'submitted',
  'random|random survey|systematic random|stratified|stratified random': 'random',
  'follow up|followup|revisit|resample': 'follow-up',
  'roadside|road side': 'roadside',
});

const ASSAY_WORDS = table<Assay>({
  'whole plant|wholeplant|greenhouse|pot|foliar|post|postemergence|post emergence': 'whole plant',
  'soil applied|soil|pre|preemergence|pre emergence': 'soil-applied',
  'molecular|dna|dna test|pcr|genotyping|genotype|sequencing|marker': 'molecular',
});
