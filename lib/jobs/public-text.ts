import { UserError } from '@/db/errors';
import { readTexts } from '@/lib/intake/read-texts';

const LONGEST = 2_000;

/**
 * A text that is to be shown to everybody, as it will be: on one line, without blanks around it. Refused where it is
 * empty or too long, has markup in it, or carries a telephone number, a mail address or what looks like a person's name
 * (after a form of address or a word of contact: other names are not known as such, so a person must read it too).
 *
 * @param what how the text is called in a message
 * @throws UserError that says what to leave out
 */
export function publicText(text: string | undefined, what: string): string {
  const words = (text ?? '').replace(/\s+/g, ' ').trim();
  if (words === '') throw new UserError(`${what} is empty.`, 'Say what is wrong, and what to do.');
  if (words.length > LONGEST) {
    throw new UserError(`${what} has ${words.length} characters.`, `Shorten it: ${LONGEST} fit.`);
  }
  const flags = readTexts({ ...NO_TEXT, remarks: words });
  if (flags.includes('PII_IN_TEXT') || LONG_NUMBER.test(words)) {
    throw new UserError(
      `${what} is shown to everybody, and carries a telephone number, a mail address or a person’s name.`,
      'Please leave it out.',
    );
  }
  if (flags.includes('TEXT_SANITISED') || CONTROL.test(words)) {
    throw new UserError(`${what} carries markup or a formula.`, 'Write it in plain words.');
  }
  return words;
}

const NO_TEXT = {
  ...{ sample: '', place: '', crop: '', operation: '', remarks: '', funder: '', sender: '', laboratory: '' },
};
/** Seven digits and more, however they are set apart, but no run of seasons. */
const LONG_NUMBER = /\+\d[\d\s().-]{6,}\d|(?<![\d–-])\d{7,}(?!\d)|\b\d{3}[\s.-]\d{4}\b(?![–-]\d)/;
const CONTROL = /\p{Cc}|\p{Cf}/u;
