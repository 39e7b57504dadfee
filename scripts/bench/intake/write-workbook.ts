import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import { strToU8, Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { HEADINGS, inventedRows } from './write-sheet';

const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const RELATIONS = 'xmlns="http://schemas.openxmlformats.org/package/2006/relationships"';
const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';

/** The parts of a workbook with one worksheet and texts in their cells. */
const PARTS: Readonly<Record<string, string>> = {
  '_rels/.rels': `<Relationships ${RELATIONS}><Relationship Id="r1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
  'xl/workbook.xml': `<workbook ${MAIN} xmlns:r="${OFFICE}"><sheets><sheet name="Invented" sheetId="1" r:id="r1"/></sheets></workbook>`,
  'xl/_rels/workbook.xml.rels': `<Relationships ${RELATIONS}><Relationship Id="r1" Type="${OFFICE}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
};

/** Writes the invented rows as a workbook: numbers as numbers, texts inline, each cell with its reference. */
export async function writeInventedWorkbook(
  path: string,
  { rows, seed }: { rows: number; seed: number },
): Promise<void> {
  const file = createWriteStream(path);
  const zip = new Zip((error, data) => {
    if (error) throw error;
    file.write(data);
  });
  for (const [name, content] of Object.entries(PARTS)) {
    const part = new ZipPassThrough(name);
    zip.add(part);
    part.push(strToU8(content), true);
  }
  const sheet = new ZipDeflate('xl/worksheets/sheet1.xml', { level: 1 });
  zip.add(sheet);
  let piece = `<worksheet ${MAIN}><sheetData>${rowXml(1, HEADINGS.split(','))}`;
  let line = 1;
  for (const fields of inventedRows(rows, seed)) {
    piece += rowXml(++line, fields);
    if (piece.length < 1_048_576) continue;
    sheet.push(strToU8(piece));
    piece = '';
    if (file.writableNeedDrain) await once(file, 'drain');
  }
  sheet.push(strToU8(`${piece}</sheetData></worksheet>`), true);
  zip.end();
  file.end();
  await once(file, 'finish');
}

function rowXml(line: number, fields: readonly string[]): string {
  const cells = fields.map((text, i) => {
    if (text === '') return '';
    const reference = `${String.fromCharCode(65 + i)}${line}`;
    return /^-?\d+(\.\d+)?$/.test(text)
      ? `<c r="${reference}"><v>${text}</v></c>`
      : `<c r="${reference}" t="inlineStr"><is><t>${text.replace(/&/g, '&amp;')}</t></is></c>`;
  });
  return `<row r="${line}">${cells.join('')}</row>`;
}
