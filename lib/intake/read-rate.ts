import { saysNothing } from '@/lib/vocabulary/normal-text';
import type { Assay } from '@/lib/vocabulary/terms';
import { asks, quoted, type Reading, read } from './reading';

/** Multiples of the label rate at which programmes screen. */
const MULTIPLES = [0.5, 1, 2, 3, 4];

/** Beyond this a multiple is taken for a slip of the pen (own rule). */
const HIGHEST_DOSE = 100;

const WORDS: ReadonlyMap<string, number> = new Map([
  ['half', 0.5],
  ['1/2', 0.5],
  ['½', 0.5],
  ['label', 1],
  ['full', 1],
  ['field', 1],
  ['single', 1],
  ['double', 2],
  ['twice', 2],
  ['triple', 3],
  ['quadruple', 4],
]);

/**
 * The multiple of the label rate. A molecular assay needs none: blank stays without one.
 *
 * @param isOfRun true for a row that names its run, which may be a dose series: any multiple up to 100 is one of its doses
 */
export function readRate(
  text: string,
  assay: Assay | null,
  isOfRun = false,
): Reading<{ multiple: number | null }> {
  if (saysNothing(text)) {
    if (assay === 'molecular') return read({ multiple: null });
    return asks('rate', 'RATE_MISSING', 'Rate is blank.', 'Which multiple of the label rate was sprayed?');
  }
  const multiple = parseMultiple(text);
  if (multiple !== null && MULTIPLES.includes(multiple)) return read({ multiple });
  if (multiple !== null && isOfRun && multiple > 0 && multiple <= HIGHEST_DOSE) return read({ multiple });
  const given = quoted(text);
  const remedy = `Which multiple of the label rate is it: ${MULTIPLES.join(', ')}?`;
  if (multiple !== null) return asks('rate', 'RATE_UNUSUAL', `Rate ${given} is not screened here.`, remedy);
  const unit = /\d.*?([a-z].*)$/i.exec(text)?.[1];
  if (unit) return asks('rate', 'RATE_UNIT', `Rate ${given} is in ${unit}, not in label rates.`, remedy);
  return asks('rate', 'RATE_UNREADABLE', `Rate ${given} cannot be read.`, remedy);
}

function parseMultiple(text: string): number | null {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/\s*(of )?(the )?(label|field|recommended)?\s*(rate|dose)s?$/, (all) =>
      /label|field|recommended/.test(all) ? ' label' : '',
    )
    .trim();
  const bare = plain.replace(/(.)\s*label$/, '$1').trim();
  const word = WORDS.get(bare.replace(/\s*[x×]$/, ''));
  if (word !== undefined) return word;
  const fraction = /^1\/(\d{1,3})\s*[x×]?$/.exec(bare);
  if (fraction) return 1 / Number(fraction[1]);
  const number = /^(\d*[.,]?\d+)\s*(?:[x×]|times)?$/.exec(bare) ?? /^[x×]\s*(\d*[.,]?\d+)$/.exec(bare);
  return number ? Number(number[1]!.replace(',', '.')) : null;
}
