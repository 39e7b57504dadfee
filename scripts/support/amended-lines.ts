import type { Amended } from '@/db/repositories/amend';
import type { Rejudged } from '@/db/repositories/rejudge';

/** What an amendment did, a line for each record. */
export function amendedLines({ record, alike }: Amended): string[] {
  return [record, ...alike].flatMap(linesOf);
}

function linesOf({ sheetId, record, outcome, result, reasons }: Rejudged): string[] {
  const head = `Import ${sheetId}, record ${record}: ${outcome}${result ? `, ${result}` : ''}`;
  return [
    head,
    ...reasons.map(({ column, reason, remedy, code }) => `  ${column}: ${reason} ${remedy} [${code}]`),
  ];
}
