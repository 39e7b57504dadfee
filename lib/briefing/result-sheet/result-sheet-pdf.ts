import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { INK } from '../ink';
import { documentBytes, startDocument } from '../pdf/start-document';
import { blockWriter, type Writer } from '../pdf/write-blocks';
import { checkWords, ownCautions, resultWords, SHEET, sampleWords, testCells } from './sheet-words';
import type { ResultSheet } from './types';

/**
 * Result sheets as one tagged PDF in US letter, each on a page of its own, to be printed or sent. The same sheets give the
 * same bytes.
 *
 * @param sheets at least one, of one programme
 * @param date ISO day that the document bears
 * @throws RangeError for none
 */
export async function resultSheetPdf(sheets: readonly ResultSheet[], date: string): Promise<Uint8Array> {
  const [first] = sheets;
  if (!first) throw new RangeError('a document of no result sheet was asked for');
  const doc = startDocument({
    title: sheets.length === 1 ? SHEET.title(first.sample) : `Results of ${sheets.length} samples`,
    author: first.programme,
    subject: SHEET.caption,
    lang: 'en',
    date,
    marks: [...(first.simulated ? ['Simulated data'] : []), SHEET.marks],
    footer: SHEET.footer(first.programme),
    page: (number) => `page ${number}`,
  });
  const writer = blockWriter(doc);
  sheets.forEach((sheet, at) => {
    if (at > 0) writer.turn();
    writeSheet(writer, sheet);
  });
  return documentBytes(doc);
}

function writeSheet(writer: Writer, sheet: ResultSheet): void {
  writer.heading(1, SHEET.title(sheet.sample), { bookmark: sheet.sample });
  for (const line of sampleWords(sheet)) writer.paragraph(line, { color: INK.quiet, after: 2 });
  if (sheet.simulated) writer.paragraph(SIMULATED_NOTICE, { face: 'sans-bold', after: 2 });
  writer.space(6);
  writer.paragraph(resultWords(sheet), { size: 12.5, after: 10 });
  writer.table({
    caption: SHEET.caption,
    columns: SHEET.columns.map((heading, at) => ({
      heading,
      share: SHARES[at]!,
      align: at === 1 || at === 2 || at === 3 ? ('right' as const) : ('left' as const),
    })),
    rows: sheet.tests.map(testCells),
  });
  writer.heading(2, SHEET.meaning);
  for (const { version, words } of sheet.definitions)
    writer.paragraph(`${words} (Case definition ${version}.)`);
  writer.heading(2, SHEET.checks);
  writer.list(checkWords(sheet));
  writer.space(4);
  writer.heading(2, SHEET.cautions);
  writer.list([...ownCautions(sheet), ...CAUTIONS]);
  writer.space(4);
  writer.heading(2, SHEET.ask);
  writer.paragraph(sheet.contact || SHEET.askNobody);
  if (sheet.regulatedNotice) {
    writer.heading(2, SHEET.regulated);
    writer.paragraph(sheet.regulatedNotice);
  }
}

const SHARES = [5, 2.2, 1.9, 2.4, 2.5];
