import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** What a reader of a PDF file finds in it. */
export interface PdfReading {
  pages: {
    /** All text of the page, single blanks, hard ones too. */
    text: string;
    /** Elements of the structure tree, each with its alternative text, in reading order. */
    elements: { role: string; alt: string | null }[];
  }[];
  lang: string | null;
  isMarked: boolean;
  title: string | null;
  bookmarks: string[];
  /** Fonts by name, and how many font files are embedded. */
  fonts: string[];
  fontFiles: number;
}

interface Node {
  role?: string;
  alt?: string;
  children?: Node[];
}

/** Reads a PDF by Mozilla's pdf.js, which shares no code with what writes it. */
export async function readPdf(bytes: Uint8Array): Promise<PdfReading> {
  const raw = Buffer.from(bytes).toString('latin1');
  const file = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const pdf = await file.promise;
  const pages: PdfReading['pages'] = [];
  for (let number = 1; number <= pdf.numPages; number++) {
    const page = await pdf.getPage(number);
    const { items } = await page.getTextContent();
    const words = items.map((item) => ('str' in item ? `${item.str}${item.hasEOL ? ' ' : ''}` : ''));
    const tree = (await page.getStructTree()) as Node | null;
    pages.push({
      text: words.join('').replace(/\s+/g, ' '),
      elements: tree ? elementsOf(tree).filter(({ role }) => role !== 'Root') : [],
    });
  }
  const { info } = (await pdf.getMetadata()) as { info: { Title?: string; Language?: string } };
  const marks = (await pdf.getMarkInfo()) as { Marked?: boolean } | null;
  const bookmarks = ((await pdf.getOutline()) ?? []).map(({ title }) => title);
  await file.destroy();
  return {
    ...{ pages, bookmarks, isMarked: marks?.Marked ?? false },
    ...{ lang: info.Language ?? null, title: info.Title ?? null },
    fonts: [...raw.matchAll(/\/Type \/FontDescriptor\s+\/FontName \/(\S+)/g)].map(([, name]) => name!),
    fontFiles: [...raw.matchAll(/\/FontFile[23]? \d+ 0 R/g)].length,
  };
}

function elementsOf({ role, alt, children = [] }: Node): PdfReading['pages'][number]['elements'] {
  const own = role === undefined ? [] : [{ role, alt: alt ?? null }];
  return [...own, ...children.flatMap(elementsOf)];
}
