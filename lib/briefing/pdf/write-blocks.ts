import type { Face } from '../fonts';
import { INK } from '../ink';
import { tied } from '../tied';
import { figureHeight, figureWords, paintFigure } from './paint-figure';
import { artifact, PAGE, TEXT_WIDTH } from './start-document';

export interface TextLook {
  face?: Face;
  size?: number;
  color?: string;
  /** Points below the block. */
  after?: number;
}

/** A column of a table: its share of the width, and how its words stand. The first column heads its rows. */
export interface TableColumn {
  heading: string;
  share: number;
  align?: 'left' | 'right';
}

export interface TableBlock {
  /** Read aloud before it. */
  caption: string;
  columns: readonly TableColumn[];
  rows: readonly (readonly string[])[];
  /** A small figure before the head of each row. */
  marks?: readonly string[];
  size?: number;
}

/** Writes blocks below each other into the structure of the document; a block that has no room begins a new page. */
export interface Writer {
  /** Where the next block begins. */
  y: number;
  /** Left edge and width of the column that is written. */
  x: number;
  width: number;
  /** Stays together with as much below it as `keep` says, in points. */
  heading(level: 1 | 2, words: string, options?: { bookmark?: string; keep?: number }): void;
  paragraph(words: string, look?: TextLook): void;
  list(items: readonly string[], look?: TextLook): void;
  /** A list whose marks are small figures, as a map’s legend. */
  key(items: readonly { mark: string; words: string }[], look?: TextLook): void;
  table(table: TableBlock): void;
  /** Painted at the column's place; `alt` is what it says to those who do not see it, the figure's own words if absent. */
  figure(markup: string, options?: { alt?: string; after?: number }): void;
  /** Several columns beside each other, from one height on; goes on below the longest. */
  beside(columns: readonly { share: number; write: () => void }[], gap?: number): void;
  space(points: number): void;
  /** What follows stands on a page of its own. */
  turn(): void;
  rule(): void;
}

export type Paint = (...given: Parameters<typeof paintFigure>) => void;

/** Of the size: the faces bring a generous line of their own. */
const LINE_GAP = -0.13;
const SIZE = 9.5;
const TITLE = { most: 21, least: 17 };
const TNUM: PDFKit.Mixins.OpenTypeFeatures[] = ['tnum'];

/**
 * @param scale of all sizes: 1, or a little less where a document has to fit
 * @param paint puts a figure at its place; one that does nothing tells where everything would stand
 */
export function blockWriter(doc: PDFKit.PDFDocument, scale = 1, paint: Paint = paintFigure): Writer {
  const root = doc.struct('Document');
  doc.addStructure(root);
  const bottom = PAGE.height - PAGE.bottom;
  let page = 0;
  const style = ({ face = 'sans', size = SIZE, color = INK.text }: TextLook) =>
    doc
      .font(face)
      .fontSize(size * scale)
      .fillColor(color);
  const writer: Writer = {
    ...{ x: PAGE.side, y: PAGE.top - 4, width: TEXT_WIDTH },
    heading(level, words, { bookmark, keep = 40 } = {}) {
      const size = level === 1 ? titleSize(words) : 12.5;
      const look = { face: 'serif', size, color: level === 1 ? INK.text : INK.accent } as const;
      style(look);
      const high = doc.heightOfString(words, { width: writer.width });
      room(high + keep);
      style(look);
      if (bookmark !== undefined) doc.outline.addItem(bookmark);
      root.add(
        doc.struct(`H${level}`, { title: words }, () => {
          doc.text(words, writer.x, writer.y, { width: writer.width });
        }),
      );
      writer.y += high + (level === 1 ? 4 : 3) * scale;
    },
    paragraph(words, look = {}) {
      put(words, look, (write) => root.add(doc.struct('P', {}, write)));
    },
    list(items, look = {}) {
      entries(
        items.map((words) => ({ words, mark: (x, y) => doc.text('•', x, y, { lineBreak: false }) })),
        { ...look, indent: 10 },
      );
    },
    key(items, look = {}) {
      entries(
        items.map(({ mark, words }) => ({
          words,
          mark: (x, y) => paint(doc, mark, { x, y: y + 1, width: 18 }),
        })),
        { ...look, indent: 25 },
      );
    },
    table(table) {
      writeTable(doc, root, writer, { ...table, size: (table.size ?? 9) * scale }, room);
    },
    figure(markup, { alt = figureWords(markup), after = 4 } = {}) {
      const width = writer.width * scale;
      const high = figureHeight(markup, width);
      room(high);
      const { x, y } = writer;
      const bbox: [number, number, number, number] = [x, y, x + width, y + high];
      root.add(
        doc.struct('Figure', { alt, bbox } as PDFKit.Mixins.StructureElementOptions, () => {
          paint(doc, markup, { x, y, width });
        }),
      );
      writer.y += high + after;
    },
    beside(columns, gap = 16) {
      const { x, y, width } = writer;
      const free = width - gap * (columns.length - 1);
      const shares = columns.reduce((sum, { share }) => sum + share, 0);
      const start = page;
      let left = x;
      let end = { page: start, y };
      for (const { share, write } of columns) {
        const wide = (free * share) / shares;
        turnTo(start);
        Object.assign(writer, { x: left, y, width: wide });
        write();
        if (page > end.page || (page === end.page && writer.y > end.y)) end = { page, y: writer.y };
        left += wide + gap;
      }
      turnTo(end.page);
      Object.assign(writer, { x, y: end.y, width });
    },
    space(points) {
      writer.y += points;
    },
    turn() {
      turnTo(page + 1);
      writer.y = PAGE.top - 4;
    },
    rule() {
      const { x, y, width } = writer;
      artifact(doc, () =>
        doc
          .moveTo(x, y)
          .lineTo(x + width, y)
          .lineWidth(0.6)
          .stroke(INK.rule),
      );
      writer.y += 5;
    },
  };

  /** A new page where so much does not fit. */
  function room(points: number): void {
    if (writer.y + points <= bottom) return;
    turnTo(page + 1);
    writer.y = PAGE.top + 8;
  }

  /** A little smaller where that keeps a title on one line. */
  function titleSize(words: string): number {
    style({ face: 'serif', size: TITLE.most });
    const fitting = (TITLE.most * (writer.width - 1)) / doc.widthOfString(words);
    return fitting < TITLE.least ? TITLE.most : Math.min(TITLE.most, fitting);
  }

  /** Columns beside each other may each go on over the page. */
  function turnTo(wanted: number): void {
    page = wanted;
    if (wanted < doc.bufferedPageRange().count) doc.switchToPage(wanted);
    else doc.addPage();
  }

  function entries(
    items: readonly { words: string; mark: (x: number, y: number) => void }[],
    { indent, ...look }: TextLook & { indent: number },
  ): void {
    const list = doc.struct('L');
    root.add(list);
    for (const { words, mark } of items) {
      const own = doc.struct('LI');
      list.add(own);
      const { x, width } = writer;
      const column = { x: x + indent, width: width - indent };
      put(
        words,
        { ...look, after: look.after ?? 2.5 },
        (write) => {
          own.add(doc.struct('Lbl', {}, () => mark(x, writer.y)));
          style(look);
          own.add(doc.struct('LBody', {}, write));
        },
        column,
      );
      own.end();
    }
    list.end();
  }

  function put(
    said: string,
    look: TextLook,
    within: (write: () => void) => void,
    { x, width } = { x: writer.x, width: writer.width },
  ): void {
    const words = tied(said);
    const options = { width, lineGap: LINE_GAP * (look.size ?? SIZE) * scale };
    style(look);
    const high = doc.heightOfString(words, options);
    room(high);
    style(look);
    within(() => doc.text(words, x, writer.y, options));
    writer.y += high + (look.after ?? 4) * scale;
  }
  return writer;
}

function writeTable(
  doc: PDFKit.PDFDocument,
  root: PDFKit.PDFStructureElement,
  writer: Writer,
  { caption, columns, rows, marks, size }: TableBlock & { size: number },
  room: (points: number) => void,
): void {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const widths = columns.map(({ share }) => (writer.width * share) / shares);
  const indent = (at: number) => (marks && at === 0 ? MARK.indent : 0);
  const options = (at: number) => ({
    width: widths[at]! - indent(at) - (at < columns.length - 1 ? PAD : 0),
    align: columns[at]!.align ?? ('left' as const),
    lineGap: LINE_GAP * size,
    features: TNUM,
  });
  const face = (isHeading: boolean, at: number): Face => (isHeading || at === 0 ? 'sans-bold' : 'sans');
  const highOf = (cells: readonly string[], isHeading: boolean) =>
    Math.max(
      ...cells.map((words, at) =>
        doc.font(face(isHeading, at)).fontSize(size).heightOfString(words, options(at)),
      ),
    );
  // A heading stays with its first rows.
  const firstRows = (heading: number) =>
    rows.slice(0, 2).reduce((sum, cells) => sum + highOf(cells, false) + 4, heading + 4);
  const table = doc.struct('Table', { title: caption });
  root.add(table);
  const line = (cells: readonly string[], isHeading: boolean, mark?: string) => {
    const high = highOf(cells, isHeading);
    room(isHeading ? firstRows(high) : high + 5);
    const row = doc.struct('TR');
    table.add(row);
    let x = writer.x;
    cells.forEach((words, at) => {
      const left = x + indent(at);
      const isHead = isHeading || at === 0;
      const scope = isHeading ? 'Column' : 'Row';
      const cell = doc.struct(
        isHead ? 'TH' : 'TD',
        (isHead ? { scope } : {}) as PDFKit.Mixins.StructureElementOptions,
        () => {
          if (mark !== undefined && at === 0)
            paintFigure(doc, mark, { x, y: writer.y + 1, width: MARK.width });
          doc
            .font(face(isHeading, at))
            .fontSize(size)
            .fillColor(isHeading ? INK.quiet : INK.text)
            .text(words, left, writer.y, options(at));
        },
      );
      row.add(cell);
      x += widths[at]!;
    });
    row.end();
    writer.y += high + 1.5;
    const y = writer.y;
    artifact(doc, () =>
      doc
        .moveTo(writer.x, y)
        .lineTo(writer.x + writer.width, y)
        .lineWidth(isHeading ? 0.9 : 0.4)
        .stroke(isHeading ? INK.quiet : INK.rule),
    );
    writer.y += 2;
  };
  line(
    columns.map(({ heading }) => heading),
    true,
  );
  for (const [i, cells] of rows.entries()) line(cells, false, marks?.[i]);
  table.end();
  writer.y += 5;
}

const PAD = 8;
const MARK = { width: 17, indent: 24 };
