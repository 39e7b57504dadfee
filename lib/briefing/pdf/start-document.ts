import PDFDocument from 'pdfkit';
import { FACES, type Face, faceBytes } from '../fonts';
import { INK } from '../ink';

export interface DocumentAbout {
  title: string;
  author: string;
  subject: string;
  /** BCP 47: `en`, `es`. */
  lang: string;
  /** ISO day by which the document is dated: no clock is read. */
  date: string;
  /** On each page, above: `Simulated data`, `Not for distribution`. */
  marks: readonly string[];
  /** On each page, below, with the number of the page after it. */
  footer: string;
  page: (number: number) => string;
}

/** US letter, in points. */
export const PAGE = { width: 612, height: 792, side: 42, top: 38, bottom: 42 } as const;
export const TEXT_WIDTH = PAGE.width - 2 * PAGE.side;

/**
 * A tagged document with its faces embedded, every page with the marks above and the footer below (as artifacts, which
 * are read aloud on no page; what they say stands in the text too).
 */
export function startDocument(about: DocumentAbout): PDFKit.PDFDocument {
  const day = new Date(`${about.date}T12:00:00Z`);
  const doc = new PDFDocument({
    size: [PAGE.width, PAGE.height],
    margins: { top: PAGE.top, left: PAGE.side, right: PAGE.side, bottom: 0 },
    autoFirstPage: false,
    bufferPages: true,
    // Else the library opens one of its own faces, which would not be embedded.
    font: '',
    pdfVersion: '1.7',
    tagged: true,
    lang: about.lang,
    displayTitle: true,
    info: {
      ...{ Title: about.title, Author: about.author, Subject: about.subject },
      ...{ Creator: 'Fencerow', CreationDate: day, ModDate: day },
    },
  });
  for (const face of Object.keys(FACES) as Face[]) doc.registerFont(face, faceBytes(face));
  let pages = 0;
  doc.on('pageAdded', () => {
    pages += 1;
    frame(doc, about, pages);
  });
  doc.addPage();
  return doc;
}

/** All bytes of a document that is ended. */
export async function documentBytes(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  doc.end();
  for await (const chunk of doc) chunks.push(chunk as Uint8Array);
  return Buffer.concat(chunks);
}

function frame(doc: PDFKit.PDFDocument, { marks, footer, page }: DocumentAbout, number: number): void {
  artifact(doc, () => {
    const mark = marks.join(' · ');
    if (mark !== '') {
      doc.font('sans-bold').fontSize(9);
      const wide = doc.widthOfString(mark) + 16;
      doc.rect(PAGE.width - PAGE.side - wide, 18, wide, 16).fill(INK.band);
      doc.fillColor(INK.bandText).text(mark, PAGE.width - PAGE.side - wide + 8, 20, { lineBreak: false });
    }
    doc.font('sans').fontSize(8).fillColor(INK.quiet);
    const y = PAGE.height - 29;
    doc.text(footer, PAGE.side, y, { lineBreak: false });
    const told = page(number);
    doc.text(told, PAGE.width - PAGE.side - doc.widthOfString(told), y, { lineBreak: false });
  });
  doc.x = PAGE.side;
  doc.y = PAGE.top;
}

/** What is drawn for the eye alone: rules, swatches' grounds, marks of the page. */
export function artifact(doc: PDFKit.PDFDocument, draw: () => void): void {
  doc.markContent('Artifact', { type: 'Layout' });
  draw();
  doc.endMarkedContent();
}
