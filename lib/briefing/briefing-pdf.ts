import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { DENOMINATOR, QUESTIONS } from './answers';
import { printedWords } from './edit-sentences';
import { editedNote } from './headlines';
import { INK } from './ink';
import { paintFigure } from './pdf/paint-figure';
import { documentBytes, startDocument } from './pdf/start-document';
import { blockWriter, type Paint, type Writer } from './pdf/write-blocks';
import {
  type Layout,
  nextSection,
  paysSection,
  samplesSection,
  whereSection,
  worksSection,
  worseSection,
} from './questions-pdf';
import { marksOf, methodsWords, privateWords, sourceWords, titleOf } from './title';
import type { Briefing } from './types';

/**
 * A briefing as a tagged PDF of two pages in US letter: headlines, then the board’s questions in their order with map, table and
 * trend, methods and the standing cautions. Figures are vectors, faces are embedded. The same briefing gives the same bytes.
 * What people added, in headlines or errata, may take a third page.
 */
export async function briefingPdf(briefing: Briefing): Promise<Uint8Array> {
  // Pictures take most of the time, and no layout asks how they look: they are painted once it is known.
  const isTight = (layout: Layout) => pagesOf(draw(briefing, layout, () => {})) > PAGES;
  const layout = LAYOUTS.find((one) => !isTight(one)) ?? LAYOUTS[0]!;
  return documentBytes(draw(briefing, layout, paintFigure));
}

const PAGES = 2;

/** The first that two pages hold is taken, or the first where none is held. In the last two, methods and cautions are set in 8.4 points. */
const LAYOUTS: readonly Layout[] = [
  { scale: 1, mapShare: 60, mapWidth: 100, chartHeight: 204, places: 8 },
  { scale: 1, mapShare: 50, mapWidth: 86, chartHeight: 165, places: 6 },
  { scale: 0.97, mapShare: 50, mapWidth: 86, chartHeight: 165, places: 6 },
  { scale: 0.94, mapShare: 50, mapWidth: 82, chartHeight: 136, places: 4 },
  { scale: 0.94, mapShare: 46, mapWidth: 70, chartHeight: 124, places: 2 },
];

function pagesOf(doc: PDFKit.PDFDocument): number {
  return doc.bufferedPageRange().count;
}

function draw(briefing: Briefing, layout: Layout, paint: Paint): PDFKit.PDFDocument {
  const { numbers } = briefing;
  const title = titleOf(numbers);
  const doc = startDocument({
    title,
    author: numbers.programme,
    subject: sourceWords(numbers),
    lang: 'en',
    date: numbers.source.date,
    marks: marksOf(numbers),
    footer: `${numbers.programme} · ${sourceWords(numbers)}`,
    page: (number) => `page ${number}`,
  });
  const writer = blockWriter(doc, layout.scale, paint);
  head(writer, briefing, title);
  whereSection(writer, briefing, layout);
  samplesSection(writer, briefing);
  worseSection(writer, briefing, layout);
  writer.beside(
    [
      { share: 4, write: () => worksSection(writer, briefing) },
      { share: 5, write: () => paysSection(writer, briefing) },
    ],
    20,
  );
  nextSection(writer, briefing, layout);
  methodsSection(writer, briefing);
  cautionsSection(writer);
  return doc;
}

function head(writer: Writer, briefing: Briefing, title: string): void {
  const { numbers, headlines } = briefing;
  writer.paragraph(numbers.programme, { face: 'sans-bold', size: 9, color: INK.accent, after: 1 });
  writer.heading(1, title, { bookmark: title });
  writer.paragraph(sourceWords(numbers), { size: 9.5, color: INK.quiet, after: 6 });
  for (const notice of notices(briefing)) writer.paragraph(notice, { face: 'sans-bold', size: 9, after: 4 });
  const of = (kind: string) => headlines.filter(({ key }) => key.startsWith(kind)).map(printedWords);
  for (const words of of('found-')) writer.paragraph(words, { face: 'sans-bold', size: 11.5 });
  writer.list([...of('change-'), ...of('trend-'), ...of('speed-')], { size: 9.4 });
  writer.paragraph(DENOMINATOR, { face: 'sans-italic', size: 9.6, after: 7 });
}

function notices({ numbers }: Briefing): string[] {
  const { source, simulated } = numbers;
  return [
    ...(source.kind === 'private' ? [privateWords(source)] : []),
    ...(simulated ? [SIMULATED_NOTICE] : []),
    ...(source.kind === 'release'
      ? source.errata.map(({ date, text }) => `Erratum of ${date}: ${text}`)
      : []),
  ];
}

function methodsSection(writer: Writer, briefing: Briefing): void {
  const note = editedNote(briefing);
  writer.heading(2, QUESTIONS.methods, { bookmark: QUESTIONS.methods, keep: 70 });
  writer.paragraph(methodsWords(briefing.numbers), { size: 8.9, after: 4 });
  if (note) writer.paragraph(`† ${note}`, { size: 8.9, after: 4 });
}

function cautionsSection(writer: Writer): void {
  writer.heading(2, QUESTIONS.cautions, { bookmark: QUESTIONS.cautions, keep: 110 });
  const half = Math.ceil(CAUTIONS.length / 2);
  writer.beside(
    [CAUTIONS.slice(0, half), CAUTIONS.slice(half)].map((cautions) => ({
      share: 1,
      write: () => writer.list(cautions, { size: 8.9 }),
    })),
  );
}
