import PptxGenJS from 'pptxgenjs';
import type { LegendEntry } from '../figures';
import { INK } from '../ink';
import { tied } from '../tied';
import { figurePicture } from './figure-picture';
import { finishDocument } from './finish-document';

export interface DeckAbout {
  title: string;
  author: string;
  /** At the foot of each slide, and in its notes. */
  source: string;
  /** On each slide, above. */
  marks: readonly string[];
  /** ISO day. */
  date: string;
}

export interface SlideTable {
  heading: readonly string[];
  /** Of the columns, in inches. */
  widths: readonly number[];
  /** The first column heads its rows; numbers stand to the right. */
  rows: readonly (readonly string[])[];
}

/** A season of a chart; null where it is not shown, which leaves a gap. */
export interface ChartPoint {
  label: string;
  share: number | null;
  low: number | null;
  high: number | null;
  tested: number | null;
}

/** Slides one after the other. Notes are paragraphs; the source is added to those of each slide. */
export interface Deck {
  title(words: string, above: string, below: readonly string[]): void;
  words(
    heading: string,
    paragraphs: readonly string[],
    options: { size: number; strong?: number; notes: readonly string[] },
  ): void;
  table(heading: string, table: SlideTable, words: readonly string[], notes?: readonly string[]): void;
  map(
    heading: string,
    map: {
      markup: string;
      alt: string;
      legend: readonly LegendEntry[];
      words: readonly string[];
      notes: readonly string[];
    },
  ): void;
  trend(
    heading: string,
    trend: { points: readonly ChartPoint[]; alt: string; words: readonly string[]; notes: readonly string[] },
  ): void;
  bytes(): Promise<Uint8Array>;
}

/** Wide slides, in inches. */
const SLIDE = { width: 13.333, height: 7.5, side: 0.6, top: 1.35, foot: 6.95 } as const;
const WIDTH = SLIDE.width - 2 * SLIDE.side;
/** Height of a table's row, and from one entry of a legend to the next. */
const ROW = 0.44;
const ENTRY = 0.44;

/** Faces that office programs have; the program takes another where one is missing. */
const FACE = { heading: 'Georgia', text: 'Calibri' } as const;

type Slide = ReturnType<PptxGenJS['addSlide']>;

export function startDeck(about: DeckAbout): Deck {
  const pptx = new PptxGenJS();
  pptx.layout = 'LAYOUT_WIDE';
  Object.assign(pptx, { title: about.title, author: about.author, company: about.author });
  pptx.theme = { headFontFace: FACE.heading, bodyFontFace: FACE.text };
  const add = (notes: readonly string[]) => {
    const slide = pptx.addSlide();
    frame(slide, about);
    slide.addNotes([...notes, `Source: ${about.source}`, ...about.marks].join('\n'));
    return slide;
  };
  const headed = (heading: string, notes: readonly string[]) => {
    const slide = add(notes);
    const place = { x: SLIDE.side, y: 0.52, w: WIDTH, h: 0.7 };
    slide.addText(heading, {
      ...place,
      ...{
        fontFace: FACE.heading,
        fontSize: 25,
        bold: true,
        color: hex(INK.accent),
        margin: 0,
        valign: 'top',
      },
      objectName: 'Title',
    });
    return slide;
  };
  return {
    title(words, above, below) {
      const slide = add(below);
      const x = SLIDE.side;
      slide.addShape('rect', { x, y: 2.35, w: 1.2, h: 0.07, fill: { color: hex(INK.accent) } });
      text(slide, [above], { x, y: 1.5, w: WIDTH, h: 0.6 }, { size: 18, color: INK.accent, bullets: false });
      slide.addText(words, {
        ...{ x, y: 2.55, w: WIDTH, h: 1.3, fontFace: FACE.heading, fontSize: 40, bold: true },
        ...{ color: hex(INK.text), margin: 0, valign: 'top', objectName: 'Title' },
      });
      text(slide, below, { x, y: 4.1, w: WIDTH, h: 2.4 }, { size: 18, color: INK.quiet, bullets: false });
    },
    words(heading, paragraphs, { size, strong = 0, notes }) {
      const slide = headed(heading, notes);
      const box = { x: SLIDE.side, y: SLIDE.top, w: WIDTH, h: SLIDE.foot - SLIDE.top - 0.1 };
      text(slide, paragraphs, box, { size, strong });
    },
    table(heading, table, words, notes = []) {
      const slide = headed(heading, [...table.rows.map((row) => row.join(' · ')), ...words, ...notes]);
      const high = ROW * (table.rows.length + 1);
      const below = {
        x: SLIDE.side,
        y: SLIDE.top + high + 0.3,
        w: WIDTH,
        h: SLIDE.foot - SLIDE.top - high - 0.4,
      };
      addTable(slide, table);
      text(slide, words, below, { size: table.rows.length > 6 ? 14 : 16 });
    },
    map(heading, { markup, alt, legend, words, notes }) {
      const slide = headed(heading, notes);
      const picture = pictureOf(markup, 1600);
      const [w, h] = fitted(picture, 7.3, SLIDE.foot - SLIDE.top - 0.1);
      slide.addImage({ data: picture.data, x: SLIDE.side, y: SLIDE.top, w, h, altText: alt });
      const x = SLIDE.side + 7.3 + 0.35;
      legend.forEach((entry, i) => {
        const y = SLIDE.top + ENTRY * i;
        slide.addImage({
          data: pictureOf(entry.mark, 144).data,
          x,
          y: y + 0.05,
          w: 0.38,
          h: 0.21,
          altText: entry.words,
        });
        slide.addText(entry.words, {
          ...{
            x: x + 0.48,
            y,
            w: SLIDE.width - SLIDE.side - x - 0.48,
            h: ENTRY - 0.03,
            fontSize: 12,
            margin: 0,
          },
          ...{ fontFace: FACE.text, color: hex(INK.text), valign: 'middle' },
        });
      });
      const y = SLIDE.top + ENTRY * legend.length + 0.2;
      text(slide, words, { x, y, w: SLIDE.width - SLIDE.side - x, h: SLIDE.foot - y }, { size: 14 });
    },
    trend(heading, { points, alt, words, notes }) {
      const slide = headed(heading, notes);
      addTrend(pptx, slide, points, alt);
      const x = SLIDE.side + 7.9;
      const box = { x, y: SLIDE.top, w: SLIDE.width - SLIDE.side - x, h: SLIDE.foot - SLIDE.top };
      text(slide, words, box, { size: 15 });
    },
    async bytes() {
      const written = (await pptx.write({ outputType: 'uint8array' })) as Uint8Array;
      return finishDocument(written, about.date);
    },
  };
}

function frame(slide: Slide, { source, marks }: DeckAbout): void {
  slide.background = { color: 'FFFFFF' };
  if (marks.length > 0)
    slide.addText(marks.join(' · '), {
      ...{ x: SLIDE.width - SLIDE.side - 4, y: 0.16, w: 4, h: 0.32, align: 'right', margin: 0 },
      ...{
        fontFace: FACE.text,
        fontSize: 13,
        bold: true,
        color: hex(INK.bandText),
        highlight: hex(INK.band),
      },
      objectName: 'Mark',
    });
  slide.addText(source, {
    ...{ x: SLIDE.side, y: 7.02, w: WIDTH - 1, h: 0.3, margin: 0 },
    ...{ fontFace: FACE.text, fontSize: 11, color: hex(INK.quiet), objectName: 'Source' },
  });
  slide.slideNumber = {
    ...{ x: SLIDE.width - SLIDE.side - 0.6, y: 7.02, w: 0.6, h: 0.3, align: 'right' },
    ...{ fontFace: FACE.text, fontSize: 11, color: hex(INK.quiet) },
  };
}

interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

function text(
  slide: Slide,
  paragraphs: readonly string[],
  box: Box,
  {
    size,
    strong = 0,
    color = INK.text,
    bullets = true,
  }: { size: number; strong?: number; color?: string; bullets?: boolean },
): void {
  const told = paragraphs.map((words, i) => {
    const isStrong = i < strong;
    return {
      text: tied(words),
      options: {
        ...{ fontSize: isStrong ? size + 4 : size, bold: isStrong, color: hex(color), breakLine: true },
        ...{
          paraSpaceAfter: 6,
          ...(bullets && !isStrong && paragraphs.length > 1 ? { bullet: { indent: 14 } } : {}),
        },
      },
    };
  });
  slide.addText(told, { ...box, fontFace: FACE.text, valign: 'top', margin: 0, fit: 'shrink' });
}

function addTable(slide: Slide, { heading, widths, rows }: SlideTable): void {
  const none = { type: 'none' as const };
  const line = (isHeading: boolean) => ({
    ...{ type: 'solid' as const, pt: isHeading ? 1.25 : 0.5, color: hex(isHeading ? INK.quiet : INK.rule) },
  });
  const isNumber = (at: number) => at > 0 && NUMBER.test(rows[0]?.[at] ?? '');
  const cell = (words: string, at: number, isHeading: boolean) => ({
    text: words,
    options: {
      ...{ bold: isHeading || at === 0, color: hex(isHeading ? INK.quiet : INK.text) },
      align: isNumber(at) ? ('right' as const) : ('left' as const),
      border: [none, none, line(isHeading), none] as [
        typeof none,
        typeof none,
        ReturnType<typeof line>,
        typeof none,
      ],
    },
  });
  slide.addTable(
    [
      heading.map((words, at) => cell(words, at, true)),
      ...rows.map((row) => row.map((words, at) => cell(words, at, false))),
    ],
    {
      ...{ x: SLIDE.side, y: SLIDE.top, w: widths.reduce((sum, width) => sum + width, 0), colW: [...widths] },
      ...{ rowH: ROW, fontFace: FACE.text, fontSize: 15, valign: 'middle', margin: 0.05 },
      ...{ objectName: 'Table' },
    },
  );
}

/** Stands to the right. */
const NUMBER = /^([\d<>–,. %to()]+|not public)$/;

/** Share with the bounds of its interval as series of their own, and below it how many were screened. */
function addTrend(pptx: PptxGenJS, slide: Slide, points: readonly ChartPoint[], alt: string): void {
  const labels = points.map(({ label }) => label);
  const series = (name: string, of: (point: ChartPoint) => number | null) => ({
    ...{ name, labels },
    values: points.map(of) as number[],
  });
  const axes = {
    ...{ catAxisLabelFontFace: FACE.text, catAxisLabelFontSize: 12, catAxisLabelColor: hex(INK.quiet) },
    ...{ valAxisLabelFontFace: FACE.text, valAxisLabelFontSize: 12, valAxisLabelColor: hex(INK.quiet) },
    ...{ valGridLine: { color: hex(INK.grid), size: 0.75 }, catGridLine: { style: 'none' as const } },
    ...{ chartArea: { roundedCorners: false } },
    ...{ displayBlanksAs: 'gap', legendFontFace: FACE.text, legendFontSize: 12, legendColor: hex(INK.text) },
  };
  const bounds = { lineDash: 'sysDash', lineSize: 1.25, lineDataSymbol: 'none' } as const;
  // Of several kinds of line the library takes the options in the place of the data.
  slide.addChart(
    [
      {
        type: pptx.ChartType.line,
        data: [series('Share resistant', ({ share }) => share)],
        options: {
          chartColors: [hex(INK.accent)],
          lineSize: 2.5,
          lineDataSymbol: 'circle',
          lineDataSymbolSize: 8,
        },
      },
      {
        type: pptx.ChartType.line,
        data: [
          series('95 % interval, lower bound', ({ low }) => low),
          series('95 % interval, upper bound', ({ high }) => high),
        ],
        options: { chartColors: [hex(INK.ramp[1]), hex(INK.ramp[1])], ...bounds },
      },
    ] as unknown as Parameters<Slide['addChart']>[0],
    {
      ...{ x: SLIDE.side, y: SLIDE.top, w: 7.6, h: 3.7, altText: alt, objectName: 'Share by season' },
      ...axes,
      ...{ valAxisMinVal: 0, valAxisMaxVal: 1, valAxisMajorUnit: 0.25, valAxisLabelFormatCode: '0%' },
      ...{ showLegend: true, legendPos: 'b' },
    } as unknown as Parameters<Slide['addChart']>[1],
  );
  slide.addChart(pptx.ChartType.bar, [series('Populations screened', ({ tested }) => tested)], {
    ...{ x: SLIDE.side, y: SLIDE.top + 3.75, w: 7.6, h: 1.8, objectName: 'Screened by season' },
    altText: `Populations screened by season. ${points.map(({ label, tested }) => `${label}: ${tested ?? 'withheld'}`).join('; ')}`,
    ...axes,
    ...{ barGapWidthPct: 60, chartColors: [hex(INK.district)], showValue: true, dataLabelFontSize: 11 },
    ...{ dataLabelFontFace: FACE.text, dataLabelColor: hex(INK.text), valAxisHidden: true, valAxisMinVal: 0 },
    ...{ showTitle: true, title: 'Populations screened', titleFontSize: 12, titleFontFace: FACE.text },
    titleColor: hex(INK.text),
  } as Parameters<Slide['addChart']>[2]);
}

interface Picture {
  data: string;
  width: number;
  height: number;
}

function pictureOf(markup: string, width: number): Picture {
  const png = Buffer.from(figurePicture(markup, width));
  // Width and height stand at a fixed place in every PNG file.
  const size = { width: png.readUInt32BE(16), height: png.readUInt32BE(20) };
  return { data: `image/png;base64,${png.toString('base64')}`, ...size };
}

function fitted({ width, height }: Picture, most: number, highest: number): [number, number] {
  const scale = Math.min(most / width, highest / height);
  return [width * scale, height * scale];
}

function hex(color: string): string {
  return color.replace('#', '').toUpperCase();
}
