import { createHash } from 'node:crypto';
import { stringify } from 'csv-stringify/sync';
import type { Region } from '@/lib/geography/types';
import { codeBook } from './code-book';
import { COLUMNS } from './columns';
import { tableRows } from './table-rows';
import type { ReleaseDraft } from './types';

export interface ReleaseFile {
  name: string;
  mediaType: string;
  sha256: string;
  bytes: Buffer;
}

/**
 * The files of a release: the table as CSV (RFC 4180, UTF-8), the findings as JSON, the code book, and the list of
 * SHA-256 sums. The same draft and number give the same bytes.
 */
export function releaseFiles(draft: ReleaseDraft, number: number, region: Region): ReleaseFile[] {
  const stem = `fencerow-release-${number}${draft.head.simulated ? '-simulated' : ''}`;
  const files = [
    file(`${stem}-cells.csv`, 'text/csv; charset=utf-8', cellsCsv(draft, number, region)),
    file(`${stem}-findings.json`, 'application/json', findingsJson(draft, number)),
    file(`${stem}-code-book.md`, 'text/markdown; charset=utf-8', codeBook(draft, number)),
  ];
  const sums = files.map(({ sha256, name }) => `${sha256}  ${name}\n`).join('');
  return [...files, file(`${stem}-sha256.txt`, 'text/plain; charset=utf-8', sums)];
}

function cellsCsv(draft: ReleaseDraft, number: number, region: Region): string {
  const { simulated, caseDefinition } = draft.head;
  const release = { number, simulated, caseDefinition: caseDefinition.version };
  const lines = [];
  for (const row of tableRows(draft, region)) lines.push(COLUMNS.map((column) => column.value(row, release)));
  // A cell that starts like a formula is neutralised, whatever a spreadsheet would make of it.
  return stringify(lines, {
    header: true,
    columns: COLUMNS.map(({ name }) => name),
    record_delimiter: 'windows',
    escape_formulas: true,
  });
}

function findingsJson({ head, findings }: ReleaseDraft, number: number): string {
  const { programme, region, date, simulated, caseDefinition } = head;
  const about = 'Findings computed from the published cells of this release and from nothing else.';
  return `${JSON.stringify({ release: number, programme, region, date, simulated, about, caseDefinition, findings }, null, 1)}\n`;
}

function file(name: string, mediaType: string, text: string): ReleaseFile {
  const bytes = Buffer.from(text, 'utf8');
  return { name, mediaType, bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
}
