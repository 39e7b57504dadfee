import { Readable } from 'node:stream';
import { stringify } from 'csv-stringify/sync';
import { type ResultRow, streamResults } from '@/db/repositories/results';
import { staffRoute } from '../../guard/staff-route';
import { queryOf, readView } from '../address';
import { RESULT_COLUMNS } from '../columns';
import { searchOf } from '../search';

/** What a view shows as CSV, every line of it, sent while it is read. What a program would take for a formula is a text. */
export const GET = staffRoute('results.see', async ({ db, request, note }) => {
  const view = { ...readView(searchOf(request.nextUrl.searchParams)), after: null };
  await note('results as CSV', { view: queryOf(view) });
  const columns = view.columns.map((name) => RESULT_COLUMNS[name]);
  const lines = async function* () {
    yield csv([columns.map(({ heading }) => heading)]);
    for await (const rows of streamResults(db, view)) yield csv(rows.map((row) => fields(row)));
  };
  const fields = (row: ResultRow) => columns.map(({ text }) => text(row));
  return new Response(Readable.toWeb(Readable.from(lines(), { objectMode: false })) as ReadableStream, {
    headers: {
      'Content-Type': 'text/csv; charset=utf-8',
      'Content-Disposition': 'attachment; filename="results.csv"',
      'X-Body-Stream': '1',
    },
  });
});

function csv(rows: string[][]): Uint8Array {
  return new TextEncoder().encode(stringify(rows, { escape_formulas: true, record_delimiter: 'windows' }));
}
