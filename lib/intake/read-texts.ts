import type { Column } from './columns';
import type { Cells } from './row-cells';

const FREE_TEXT: readonly Column[] = [
  'sample',
  'place',
  'crop',
  'operation',
  'remarks',
  'funder',
  'sender',
  'laboratory',
];

/**
 * What free text carries that must never act or travel: a formula or markup (it stays plain text and is escaped on
 * export), a telephone number or mail address (it stays in the private store).
 */
export function readTexts(cells: Cells): string[] {
  const texts = FREE_TEXT.map((column) => cells[column]).filter((text) => text !== '');
  const flags: string[] = [];
  if (texts.some((text) => FORMULA.test(text) || MARKUP.test(text))) flags.push('TEXT_SANITISED');
  if (texts.some((text) => MAIL.test(text) || PHONE.test(text))) flags.push('PII_IN_TEXT');
  return flags;
}

const FORMULA = /^\s*[=+@-]\s*[^\s-]/;
const MARKUP = /<\/?[a-z!][^>]*>?|&#?\w+;/i;
const MAIL = /[^\s@]+@[^\s@]+\.[a-z]{2,}/i;
const PHONE = /(?<![\d.-])(\+?1[\s.-]?)?(\(\d{3}\)\s?|\d{3}[\s.-])\d{3}[\s.-]\d{4}(?![\d-])/;
