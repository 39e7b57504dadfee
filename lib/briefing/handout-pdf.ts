import { INK } from './ink';
import { documentBytes, startDocument } from './pdf/start-document';
import { blockWriter, type Writer } from './pdf/write-blocks';

/** All words of a county's handout in its language, as somebody else has read and written them; this draws them. */
export interface Handout {
  /** BCP 47. */
  lang: string;
  /** ISO day by which it is dated. */
  date: string;
  programme: string;
  /** The county. */
  title: string;
  /** Release, day, seasons. */
  source: string;
  /** On the page, above: that the data are simulated. */
  marks: readonly string[];
  /** Before all else: the notice of simulated data, errata. */
  notices: readonly string[];
  headline: string;
  /** Where the county lies: a figure of `lib/figures`. */
  map: string;
  found: {
    heading: string;
    /** Of four columns. */
    columns: readonly [string, string, string, string];
    /** `mark`: the look as a small figure, told apart on a grey copy too. */
    rows: readonly { mark: string; words: readonly [string, string, string, string] }[];
    /** Below the table, or in its place. */
    notes: readonly string[];
  };
  /** Further lists, each with its heading: where none was found, what changed. */
  sections: readonly { heading: string; items: readonly string[] }[];
  /** Beside each other. */
  advice: readonly { heading: string; steps: readonly string[] }[];
  cautions: { heading: string; all: readonly string[] };
}

/**
 * A handout of one county as a tagged PDF of one page in US letter, good in black and white. What has too much for the page is
 * set smaller, then loses the longest of its further lists, which the county's page has in full. The same handout gives
 * the same bytes.
 */
export async function handoutPdf(handout: Handout): Promise<Uint8Array> {
  let doc: PDFKit.PDFDocument | undefined;
  for (const most of LISTED) {
    const sections = handout.sections
      .map((section) => ({ ...section, items: section.items.slice(0, most) }))
      .filter(({ items }) => items.length > 0);
    for (const scale of SCALES) {
      doc = draw({ ...handout, sections }, scale);
      if (doc.bufferedPageRange().count === 1) return documentBytes(doc);
    }
  }
  return documentBytes(doc!);
}

/** Entries of each further list that are tried, and sizes. */
const LISTED = [4, 2, 1, 0];
const SCALES = [1, 0.95, 0.9, 0.86];

function draw(handout: Handout, scale: number): PDFKit.PDFDocument {
  const { lang, date, programme, title, source, marks } = handout;
  const doc = startDocument({
    ...{ title, lang, date, marks, author: programme, subject: source },
    ...{ footer: `${programme} · ${source}`, page: () => '' },
  });
  const writer = blockWriter(doc, scale);
  writer.beside(
    [
      { share: 74, write: () => head(writer, handout) },
      { share: 26, write: () => writer.figure(handout.map) },
    ],
    18,
  );
  found(writer, handout);
  for (const { heading, items } of handout.sections) {
    writer.heading(2, heading, { bookmark: heading });
    writer.list(items, { size: 9 });
  }
  writer.beside(
    handout.advice.map(({ heading, steps }) => ({
      share: 1,
      write: () => {
        writer.heading(2, heading, { bookmark: heading });
        writer.list(steps, { size: 9 });
      },
    })),
  );
  const { heading, all } = handout.cautions;
  writer.heading(2, heading, { bookmark: heading });
  const half = Math.ceil(all.length / 2);
  writer.beside(
    [all.slice(0, half), all.slice(half)].map((cautions) => ({
      share: 1,
      write: () => writer.list(cautions, { size: 8.6 }),
    })),
  );
  return doc;
}

function head(writer: Writer, { programme, title, source, notices, headline }: Handout): void {
  writer.paragraph(programme, { face: 'sans-bold', size: 9, color: INK.accent, after: 1 });
  writer.heading(1, title, { bookmark: title });
  writer.paragraph(source, { size: 9.5, color: INK.quiet });
  for (const notice of notices) writer.paragraph(notice, { face: 'sans-bold', size: 9 });
  writer.paragraph(headline, { size: 10.5, after: 6 });
}

function found(writer: Writer, { found: { heading, columns, rows, notes } }: Handout): void {
  writer.heading(2, heading, { bookmark: heading });
  if (rows.length > 0)
    writer.table({
      caption: heading,
      columns: columns.map((words, at) => ({ heading: words, share: [34, 24, 26, 22][at]! })),
      rows: rows.map(({ words }) => words),
      marks: rows.map(({ mark }) => mark),
      size: 8.8,
    });
  for (const note of notes) writer.paragraph(note, { size: 8.8 });
}
