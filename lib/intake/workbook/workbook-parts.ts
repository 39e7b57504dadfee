import { readWholeXml } from './read-xml';
import { damagedWorkbook, type Package } from './zip-package';

export interface Worksheet {
  name: string;
  /** Name of its part. */
  part: string;
  hidden: boolean;
}

export interface Workbook {
  /** In the order of the tabs. */
  worksheets: Worksheet[];
  /** Days are counted from 1904-01-01, as old Macintosh programs did, in place of 1899-12-31. */
  from1904: boolean;
  sharedStrings: string | null;
  styles: string | null;
}

/** What a workbook consists of (ECMA-376, part 1, 12 and 18.2). @throws SheetError where it is no spreadsheet workbook */
export async function readWorkbookParts(package_: Package): Promise<Workbook> {
  const start = (await relations(package_, '')).find(({ kind }) => kind === 'officeDocument');
  const part = start?.target ?? 'xl/workbook.xml';
  const targets = await relations(package_, part);
  const source = await package_.open(part);
  if (!source) throw damagedWorkbook('the file is a ZIP, but no spreadsheet workbook of the XLSX kind');
  const listed: { name: string; id: string; hidden: boolean }[] = [];
  let from1904 = false;
  await readWholeXml(source, {
    open(name, attributes) {
      if (name === 'workbookPr') from1904 = /^(1|true)$/.test(attributes.date1904 ?? '');
      if (name !== 'sheet') return;
      const id = Object.entries(attributes).find(([key]) => key === 'id' || key.endsWith(':id'))?.[1] ?? '';
      listed.push({ name: attributes.name ?? '', id, hidden: (attributes.state ?? 'visible') !== 'visible' });
    },
  });
  const worksheets = listed.flatMap(({ name, id, hidden }) => {
    const relation = targets.find((one) => one.id === id && one.kind === 'worksheet');
    return relation ? [{ name, part: relation.target, hidden }] : [];
  });
  const of = (kind: string) => targets.find((one) => one.kind === kind)?.target ?? null;
  return { worksheets, from1904, sharedStrings: of('sharedStrings'), styles: of('styles') };
}

interface Relation {
  id: string;
  /** Last piece of its type. */
  kind: string;
  target: string;
}

/** The relations of a part; of the package where the part is ''. */
async function relations(package_: Package, part: string): Promise<Relation[]> {
  const [folder, file] = [part.slice(0, part.lastIndexOf('/') + 1), part.slice(part.lastIndexOf('/') + 1)];
  const source = await package_.open(`${folder}_rels/${file}.rels`);
  const found: Relation[] = [];
  if (!source) return found;
  await readWholeXml(source, {
    open(name, { Id = '', Type = '', Target = '', TargetMode }) {
      if (name !== 'Relationship' || TargetMode === 'External') return;
      found.push({ id: Id, kind: Type.slice(Type.lastIndexOf('/') + 1), target: resolved(folder, Target) });
    },
  });
  return found;
}

function resolved(folder: string, target: string): string {
  const pieces = target.startsWith('/') ? target.split('/') : [...folder.split('/'), ...target.split('/')];
  const path: string[] = [];
  for (const piece of pieces) {
    if (piece === '..') path.pop();
    else if (piece !== '' && piece !== '.') path.push(piece);
  }
  return path.join('/');
}
