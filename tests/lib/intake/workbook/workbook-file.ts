import { strToU8, zipSync } from 'fflate';

/** Everything written here is invented. A cell is a text, a number, a boolean, or XML of its own. */
export type InventedCell = string | number | boolean | null | { xml: string };

export interface InventedSheet {
  name?: string;
  state?: 'visible' | 'hidden' | 'veryHidden';
  rows: readonly (readonly InventedCell[])[];
  /** Ranges such as `A2:A4`. */
  merged?: readonly string[];
  /** Attributes of rows by number from 1. */
  rowAttributes?: Readonly<Record<number, string>>;
}

export interface InventedWorkbook {
  sheets: readonly InventedSheet[];
  from1904?: boolean;
  /** Texts in a table of their own, as spreadsheet programs write them; else inline. */
  shared?: boolean;
  /** Parts added or put in place of the usual ones. */
  parts?: Readonly<Record<string, string | Uint8Array>>;
}

/** Styles by index: 0 none, 1 a date, 2 a percentage, 3 a date of the program's own, 4 a time. */
const STYLES = `<styleSheet xmlns="${main()}"><numFmts count="2"><numFmt numFmtId="164" formatCode="[$-409]d\\-mmm\\-yy;@"/><numFmt numFmtId="165" formatCode="&quot;d&quot;h:mm"/></numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="10"/><xf numFmtId="164"/><xf numFmtId="165"/></cellXfs></styleSheet>`;

/** The bytes of a workbook. */
export function workbookFile(book: InventedWorkbook): Uint8Array {
  const { sheets, from1904 = false, shared = false, parts = {} } = book;
  const strings: string[] = [];
  const all: Record<string, string | Uint8Array> = {
    '[Content_Types].xml': '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
    '_rels/.rels': relations([['rId1', 'officeDocument', 'xl/workbook.xml']]),
    'xl/workbook.xml': `<?xml version="1.0"?><workbook xmlns="${main()}" xmlns:r="${relation()}"><workbookPr date1904="${from1904 ? 1 : 0}"/><sheets>${sheets
      .map(
        ({ name, state = 'visible' }, i) =>
          `<sheet name="${name ?? `Sheet${i + 1}`}" sheetId="${i + 1}" state="${state}" r:id="rId${i + 1}"/>`,
      )
      .join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': relations([
      ...sheets.map((_, i) => [`rId${i + 1}`, 'worksheet', `worksheets/sheet${i + 1}.xml`] as const),
      ['rIdS', 'styles', 'styles.xml'],
      ['rIdT', 'sharedStrings', '/xl/sharedStrings.xml'],
    ]),
    'xl/styles.xml': STYLES,
  };
  sheets.forEach((sheet, i) => {
    all[`xl/worksheets/sheet${i + 1}.xml`] = worksheet(sheet, shared ? strings : null);
  });
  if (shared)
    all['xl/sharedStrings.xml'] =
      `<sst xmlns="${main()}">${strings.map((text) => `<si><t xml:space="preserve">${escaped(text)}</t></si>`).join('')}</sst>`;
  const files = Object.entries({ ...all, ...parts }).map(
    ([name, content]) => [name, typeof content === 'string' ? strToU8(content) : content] as const,
  );
  return zipSync(Object.fromEntries(files));
}

export function worksheet(
  { rows, merged = [], rowAttributes = {} }: InventedSheet,
  strings: string[] | null,
): string {
  const body = rows.map(
    (cells, r) =>
      `<row r="${r + 1}" ${rowAttributes[r + 1] ?? ''}>${cells.map((cell, c) => cellXml(cell, `${column(c)}${r + 1}`, strings)).join('')}</row>`,
  );
  const merges =
    merged.length > 0
      ? `<mergeCells count="${merged.length}">${merged.map((ref) => `<mergeCell ref="${ref}"/>`).join('')}</mergeCells>`
      : '';
  return `<?xml version="1.0" encoding="UTF-8"?><worksheet xmlns="${main()}"><sheetData>${body.join('')}</sheetData>${merges}</worksheet>`;
}

function cellXml(cell: InventedCell, ref: string, strings: string[] | null): string {
  if (cell === null) return '';
  if (typeof cell === 'object') return cell.xml.replace('<c', `<c r="${ref}"`);
  if (typeof cell === 'number') return `<c r="${ref}"><v>${cell}</v></c>`;
  if (typeof cell === 'boolean') return `<c r="${ref}" t="b"><v>${cell ? 1 : 0}</v></c>`;
  if (strings) return `<c r="${ref}" t="s"><v>${strings.push(cell) - 1}</v></c>`;
  return `<c r="${ref}" t="inlineStr"><is><t xml:space="preserve">${escaped(cell)}</t></is></c>`;
}

export function column(index: number): string {
  const [rest, letter] = [Math.floor(index / 26), String.fromCharCode(65 + (index % 26))];
  return rest === 0 ? letter : column(rest - 1) + letter;
}

export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

function relations(list: readonly (readonly [id: string, kind: string, target: string])[]): string {
  const entries = list.map(
    ([id, kind, target]) => `<Relationship Id="${id}" Type="${relation()}/${kind}" Target="${target}"/>`,
  );
  return `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${entries.join('')}</Relationships>`;
}

function main(): string {
  return 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
}

function relation(): string {
  return 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
}
