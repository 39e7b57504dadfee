import sax from 'sax';
import type { Face } from '../fonts';
import { type FillTexture, textures } from './textures';

export interface FigureBox {
  /** Upper left corner and width in points; the height follows from the figure's. */
  x: number;
  y: number;
  width: number;
}

/**
 * Paints a figure of `lib/figures` as vectors and text: the same markup as on the pages, so that a document cannot show
 * another picture than they do.
 *
 * @param markup svg, g, path, rect, circle, text with presentation attributes; titles, descriptions and definitions are
 *   passed over, the two textures are known by the end of their names
 * @returns the height that it took, in points
 * @throws Error for an element, fill or transformation that figures do not have
 */
export function paintFigure(doc: PDFKit.PDFDocument, markup: string, { x, y, width }: FigureBox): number {
  const [left, top, viewWidth, viewHeight] = viewBox(markup);
  doc.save();
  doc.translate(x, y).scale(width / viewWidth);
  // As on a page, where nothing is painted outside a picture.
  doc.rect(left, top, viewWidth, viewHeight).clip();
  paint(doc, markup);
  doc.restore();
  return (width / viewWidth) * viewHeight;
}

/** Height of a figure that is painted this wide. */
export function figureHeight(markup: string, width: number): number {
  const [, , viewWidth, viewHeight] = viewBox(markup);
  return (width / viewWidth) * viewHeight;
}

/** Name and description of a figure, for readers who do not see it. */
export function figureWords(markup: string): string {
  const told: string[] = [];
  let depth = 0;
  const reader = sax.parser(true);
  reader.onopentag = () => {
    depth += 1;
  };
  reader.onclosetag = () => {
    depth -= 1;
  };
  // The figure's own stand directly in it; those of places lie deeper.
  reader.ontext = (words) => {
    if (depth === 2 && ['title', 'desc'].includes(reader.tag.name)) told.push(words);
  };
  reader.write(markup).close();
  return told.map((words) => words.replace(/\.$/, '')).join('. ');
}

type Box = [number, number, number, number];

function viewBox(markup: string): Box {
  const found = /viewBox="([^"]+)"/.exec(markup)?.[1]?.split(' ').map(Number);
  if (found?.length !== 4) throw new Error('a figure has no viewBox');
  return found as Box;
}

type Given = Readonly<Record<string, string>>;
interface Open {
  name: string;
  given: Given;
  words: string;
}

const PASSED_OVER = new Set(['title', 'desc', 'defs']);

function paint(doc: PDFKit.PDFDocument, markup: string): void {
  const fillTexture = textures(doc);
  const stack: Open[] = [];
  let passing = 0;
  const reader = sax.parser(true, { trim: false });
  reader.onopentag = ({ name, attributes }) => {
    if (passing > 0 || PASSED_OVER.has(name)) {
      passing += 1;
      return;
    }
    const own = attributes as Record<string, string>;
    const inherited = stack.at(-1)?.given ?? {};
    const opacity = String(Number(inherited.opacity ?? 1) * Number(own.opacity ?? 1));
    stack.push({ name, given: { ...inherited, ...own, opacity }, words: '' });
    doc.save();
    transform(doc, own.transform);
    if (name !== 'text') draw(doc, stack.at(-1)!, fillTexture);
  };
  reader.ontext = (words) => {
    if (passing === 0 && stack.length > 0) stack.at(-1)!.words += words;
  };
  reader.onclosetag = () => {
    if (passing > 0) {
      passing -= 1;
      return;
    }
    const open = stack.pop()!;
    if (open.name === 'text') write(doc, open);
    doc.restore();
  };
  reader.write(markup).close();
}

function transform(doc: PDFKit.PDFDocument, words: string | undefined): void {
  if (words === undefined) return;
  const [, name, a, b] = /^(scale|translate)\((-?[\d.]+)(?:[ ,]+(-?[\d.]+))?\)$/.exec(words) ?? [];
  if (name === 'scale') doc.scale(Number(a));
  else if (name === 'translate') doc.translate(Number(a), Number(b ?? 0));
  else throw new Error(`a figure is transformed by ${words}, which documents do not know`);
}

function draw(doc: PDFKit.PDFDocument, { name, given }: Open, fillTexture: FillTexture): void {
  if (name === 'svg' || name === 'g') return;
  const trace = () => {
    if (name === 'path') doc.path(given.d!);
    else if (name === 'rect') doc.rect(...numbers(given, ['x', 'y', 'width', 'height']));
    else if (name === 'circle') doc.circle(...numbers(given, ['cx', 'cy', 'r']));
    else throw new Error(`a figure holds <${name}>, which documents do not know`);
  };
  const rule = given['fill-rule'] === 'evenodd' ? 'even-odd' : 'non-zero';
  const fill = given.fill ?? 'black';
  if (fill.startsWith('url(')) {
    fillTexture(trace, textureOf(fill), rule);
  } else if (fill !== 'none') {
    trace();
    doc.fillOpacity(Number(given.opacity)).fill(fill, rule);
  }
  if (given.stroke === undefined || given.stroke === 'none') return;
  trace();
  pen(doc, given);
  doc.stroke(given.stroke);
}

/** `hatch` of `url(#map-27-hatch)`. */
function textureOf(fill: string): string {
  const [, name] = /^url\(#.*?(dots|hatch|faint-[a-z0-9-]+)\)$/.exec(fill) ?? [];
  if (name !== undefined) return name;
  throw new Error(`a figure is filled with ${fill}, which documents do not know`);
}

function pen(doc: PDFKit.PDFDocument, given: Given): void {
  doc.lineWidth(Number(given['stroke-width'] ?? 1));
  doc.strokeOpacity(Number(given.opacity) * Number(given['stroke-opacity'] ?? 1));
  doc.lineJoin(given['stroke-linejoin'] === 'round' ? 'round' : 'miter');
  const dashes = given['stroke-dasharray']?.split(/[ ,]+/).map(Number);
  if (dashes) doc.dash(dashes[0]!, { space: dashes[1] ?? dashes[0]! });
}

function write(doc: PDFKit.PDFDocument, { given, words }: Open): void {
  const size = Number(given['font-size'] ?? 12);
  doc.font(faceOf(given)).fontSize(size);
  const wide = doc.widthOfString(words, FIGURES);
  const anchor = given['text-anchor'];
  const [x, y] = numbers(given, ['x', 'y']);
  const left = anchor === 'middle' ? x - wide / 2 : anchor === 'end' ? x - wide : x;
  const options = { ...FIGURES, lineBreak: false, baseline: 'alphabetic' } as const;
  doc.fillOpacity(Number(given.opacity)).fillColor(given.fill ?? 'black');
  if (given.stroke !== undefined && given.stroke !== 'none') {
    pen(doc, given);
    doc.strokeColor(given.stroke).text(words, left, y, { ...options, stroke: true, fill: false });
    doc.strokeOpacity(1);
  }
  doc.text(words, left, y, options);
}

/** Figures of one width, so that columns of numbers stand. */
const FIGURES: { features: PDFKit.Mixins.OpenTypeFeatures[] } = { features: ['tnum'] };

function faceOf(given: Given): Face {
  if (given['font-weight'] === 'bold') return 'sans-bold';
  return given['font-style'] === 'italic' ? 'sans-italic' : 'sans';
}

function numbers<Names extends readonly string[]>(
  given: Given,
  names: [...Names],
): { [At in keyof Names]: number } {
  return names.map((name) => Number(given[name] ?? 0)) as { [At in keyof Names]: number };
}
