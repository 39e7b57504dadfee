import { stringify } from 'csv-stringify/sync';
import { listActivity } from '@/db/repositories/activity';
import { staffRoute } from '../../guard/staff-route';
import { filterQuery, readFilter } from '../filter';

const MOST = 1_000_000;

/** The lines that a filter asks for as CSV, one for each act; taking them away is an act itself. */
export const GET = staffRoute('activity.see', async ({ db, request, note }) => {
  const filter = readFilter(Object.fromEntries(request.nextUrl.searchParams));
  const lines = await listActivity(db, { ...filter, limit: MOST });
  await note('activity as CSV', { filter: filterQuery(filter), lines: lines.length });
  const rows = lines.map(({ details, ...line }) => ({ ...line, details: JSON.stringify(details) }));
  return new Response(
    stringify(rows, {
      header: true,
      columns: ['id', 'at', 'personId', 'by', 'what', 'about', 'details'],
      escape_formulas: true,
      bom: true,
    }),
    {
      headers: {
        'Content-Type': 'text/csv; charset=utf-8',
        'Content-Disposition': 'attachment; filename="activity.csv"',
      },
    },
  );
});
