import type { Readable } from 'node:stream';
import { SheetError } from '../sheet-error';
import { readWholeXml } from './read-xml';

/** Characters of all shared texts together: a workbook with more keeps no memory bound. */
const MOST_CHARACTERS = 120_000_000;

/** The texts that cells point to (ECMA-376, part 1, 18.4): runs of rich text joined, reading aids left out. */
export async function readSharedStrings(source: Readable): Promise<string[]> {
  const strings: string[] = [];
  const collector = createTextCollector();
  let characters = 0;
  await readWholeXml(source, {
    open: collector.open,
    text: collector.text,
    close(name) {
      collector.close(name);
      if (name !== 'si') return;
      const text = collector.take();
      characters += text.length;
      if (characters > MOST_CHARACTERS) throw tooMuch();
      strings.push(text);
    },
  });
  return strings;
}

/** Gathers the text of `t` elements, except those of reading aids (`rPh`). */
export function createTextCollector() {
  let [text, inText, aids] = ['', false, 0];
  return {
    open(name: string) {
      if (name === 't') inText = aids === 0;
      else if (name === 'rPh') aids++;
    },
    close(name: string) {
      if (name === 't') inText = false;
      else if (name === 'rPh') aids--;
    },
    text(piece: string) {
      if (inText) text += piece;
    },
    /** What was gathered since the last time. */
    take(): string {
      const all = text;
      [text, inText, aids] = ['', false, 0];
      return all;
    },
  };
}

function tooMuch(): SheetError {
  return new SheetError(
    'WORKBOOK_TOO_LARGE',
    `The workbook holds more than ${MOST_CHARACTERS.toLocaleString('en')} characters of text.`,
    'Save the one worksheet that holds the records as CSV (UTF-8) and send that file.',
  );
}
