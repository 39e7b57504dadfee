/** What a text is as one record: whole, still inside a quoted field, or broken by its quotes. */
export type Scan = { state: 'whole'; fields: number } | { state: 'open' } | { state: 'broken' };

/**
 * Counts the fields of a record and sees whether its quotes close. A field is quoted when a quote is its first
 * character but for blanks; inside, a quote is doubled. In other fields a quote is plain text: after a digit (inches,
 * seconds of arc) always, else in pairs.
 */
export function scanRecord(text: string, delimiter: string): Scan {
  let fields = 1;
  let loose = 0;
  let at = 0;
  while (at < text.length) {
    while (text[at] === ' ') at++;
    if (text[at] === '"') {
      at = closingQuote(text, at + 1);
      if (at < 0) return { state: 'open' };
      while (text[at] === ' ') at++;
      if (at < text.length && text[at] !== delimiter) return { state: 'broken' };
    } else {
      for (; at < text.length && text[at] !== delimiter; at++) {
        if (text[at] === '"' && !/\d/.test(text[at - 1] ?? '')) loose++;
      }
    }
    if (at < text.length) {
      fields++;
      at++;
    }
  }
  return loose % 2 === 0 ? { state: 'whole', fields } : { state: 'broken' };
}

/** Place after the quote that closes a field, or −1. */
function closingQuote(text: string, from: number): number {
  for (let at = text.indexOf('"', from); at >= 0; at = text.indexOf('"', at + 2)) {
    if (text[at + 1] !== '"') return at + 1;
  }
  return -1;
}
