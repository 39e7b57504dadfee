import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { parse } from 'csv-parse/sync';
import { readCellStyles } from '@/lib/intake/workbook/cell-styles';
import { readRows } from '@/lib/intake/workbook/read-rows';
import { readSharedStrings } from '@/lib/intake/workbook/shared-strings';
import { readWorkbookParts } from '@/lib/intake/workbook/workbook-parts';
import { openPackage } from '@/lib/intake/workbook/zip-package';
import type { ReleaseFile } from '@/lib/release/files';

/** One line of a table by its columns' names, read back from a file: every value as a text, empty as ''. */
export type Line = Record<string, string>;

export function named(files: readonly ReleaseFile[], end: string): ReleaseFile {
  const file = files.find(({ name }) => name.endsWith(end));
  if (!file) throw new Error(`no file ends with ${end}`);
  return file;
}

export function readCsv({ bytes }: ReleaseFile): Line[] {
  return parse(bytes, { columns: true }) as Line[];
}

/** By an engine that shares no code with the writer. */
export async function readParquet(file: ReleaseFile, query = 'select *'): Promise<Record<string, unknown>[]> {
  return inFolder([file], async (folder) => {
    const path = join(folder, file.name);
    const instance = await DuckDBInstance.create();
    const connection = await instance.connect();
    try {
      const answer = await connection.runAndReadAll(`${query} from read_parquet('${path}')`);
      return answer.getRowObjects() as Record<string, unknown>[];
    } finally {
      connection.closeSync();
      instance.closeSync();
    }
  });
}

/**
 * What the reference program of the Data Package specification (version 1) says of a descriptor by its profile, and how many
 * lines it reads of each table by its Table Schema: types, limits, values and keys.
 *
 * @throws Error for a line that does not fit its schema
 */
export async function readDataPackage(
  files: readonly ReleaseFile[],
  descriptor: object,
): Promise<{ errors: string[]; lines: Record<string, number> }> {
  return inFolder(files, async (basePath) => {
    const { errors, resources } = await Package.load(descriptor, { basePath });
    const lines: Record<string, number> = {};
    for (const resource of errors.length === 0 ? resources : [])
      if (resource.descriptor.profile === 'tabular-data-resource')
        lines[resource.name] = (await resource.read()).length;
    return { errors: errors.map(({ message }) => message), lines };
  });
}

interface ReadPackage {
  errors: Error[];
  resources: { name: string; descriptor: { profile: string }; read(): Promise<unknown[]> }[];
}

// The package comes without types.
const { Package } = createRequire(import.meta.url)('datapackage') as {
  Package: { load(descriptor: object, options: { basePath: string }): Promise<ReadPackage> };
};

/** Each worksheet's rows as texts, by the reader of laboratories' workbooks; trailing empty cells may be missing. */
export async function readWorksheets(file: ReleaseFile): Promise<Map<string, string[][]>> {
  return inFolder([file], async (folder) => {
    const path = join(folder, file.name);
    const workbook = await openPackage(path);
    try {
      const parts = await readWorkbookParts(workbook);
      const part = async (name: string | null) => (name === null ? null : workbook.open(name));
      const strings = await part(parts.sharedStrings);
      const styles = await part(parts.styles);
      const context = {
        from1904: parts.from1904,
        sharedStrings: strings ? await readSharedStrings(strings) : [],
        styles: styles ? await readCellStyles(styles) : [],
      };
      const sheets = new Map<string, string[][]>();
      for (const { name, part: source } of parts.worksheets) {
        const notes = { formulas: 0, withoutValue: 0, hiddenRows: 0, merged: 0 };
        const rows: string[][] = [];
        for await (const { cells } of readRows((await workbook.open(source))!, context, [], notes))
          rows.push([...cells]);
        if (notes.formulas > 0) throw new Error(`${name} holds ${notes.formulas} formulas`);
        sheets.set(name, rows);
      }
      return sheets;
    } finally {
      workbook.close();
    }
  });
}

export function linesOf([header, ...rows]: readonly string[][]): Line[] {
  return rows.map((row) => Object.fromEntries(header!.map((name, i) => [name, row[i] ?? ''])));
}

async function inFolder<T>(files: readonly ReleaseFile[], work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'fencerow-format-'));
  try {
    for (const { name, bytes } of files) writeFileSync(join(folder, name), bytes);
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
