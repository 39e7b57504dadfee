import type { Column } from './columns';

export const FREE_TEXT = [
  ...(['sample', 'place', 'crop', 'operation', 'remarks', 'funder', 'sender', 'laboratory'] as const),
] satisfies readonly Column[];

/**
 * What free text carries that must never act or travel: a formula or markup (it stays plain text and is escaped on
 * export), a telephone number, mail address or person's name (it stays in the private store, as all free text does).
 */
export function readTexts(cells: Readonly<Record<(typeof FREE_TEXT)[number], string>>): string[] {
  const texts = FREE_TEXT.map((column) => cells[column]).filter((text) => text !== '' && !PLAIN.test(text));
  if (texts.length === 0) return [];
  const flags: string[] = [];
  if (texts.some((text) => FORMULA.test(text) || MARKUP.test(text))) flags.push('TEXT_SANITISED');
  if (texts.some((text) => MAIL.test(text) || PHONE.test(text) || PERSON.test(text)))
    flags.push('PII_IN_TEXT');
  return flags;
}

/** A short word or number, in which none of what is sought has room. */
const PLAIN = /^\w[\w-]{0,10}$/;
const FORMULA = /^\s*[=+@-]\s*[^\s-]/;
const MARKUP = /<\/?[a-z!][^>]*>?|&#?\w+;/i;
const MAIL = /[^\s@]+@[^\s@]+\.[a-z]{2,}/i;
const PHONE = /(?<![\d.-])(\+?1[\s.-]?)?(\(\d{3}\)\s?|\d{3}[\s.-])\d{3}[\s.-]\d{4}(?![\d-])/;
/** A form of address, or a word of contact before two words with capitals. */
const PERSON =
  /\b(?:Mrs?|Ms|Dr)\.? \p{Lu}|\b(?:[Cc]all|[Cc]ontact|[Aa]sk for|[Aa]sk|[Aa]ttn|c\/o|[Oo]wner|[Gg]rower|[Tt]enant|[Ll]andlord|[Tt]alk to)\b[:.]? \p{Lu}\p{Ll}+ (?:\p{Lu}\.? )?\p{Lu}\p{Ll}+/u;
