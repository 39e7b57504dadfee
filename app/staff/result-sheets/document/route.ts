import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { untoldIds } from '@/db/repositories/result-sheets';
import { resultSheetPdf } from '@/lib/briefing/result-sheet/result-sheet-pdf';
import { resultSheets } from '@/lib/jobs/result-sheets';
import { today } from '@/lib/jobs/today';
import { staffRoute } from '../../guard/staff-route';
import { sheetTexts as texts } from '../../messages/result-sheets';
import { MOST_SHEETS } from '../most-sheets';

/** Result sheets as one PDF: of the samples that `ids` names, or of all of a season that wait. */
export const GET = staffRoute('samples.see', async ({ db, request, note }) => {
  const ids = await wanted(db, request.nextUrl.searchParams);
  const sheets = await resultSheets(db, ids);
  const [first] = sheets;
  if (!first) throw new UserError(texts.unknown, texts.noDocument);
  await note(`${sheets.length} result sheets`, { ids: sheets.map(({ id }) => id) });
  const name = sheets.length === 1 ? first.sample : `${sheets.length}-samples-${first.season}`;
  return new Response(new Uint8Array(await resultSheetPdf(sheets, today())), {
    headers: {
      'Content-Type': 'application/pdf',
      'Content-Disposition': `attachment; filename="result-${name.replace(/[^\w.-]/g, '_')}.pdf"`,
    },
  });
});

async function wanted(db: StaffDatabase, query: URLSearchParams): Promise<number[]> {
  const ids = query.get('ids')?.split(',').map(Number);
  if (ids)
    return ids.filter((id) => Number.isSafeInteger(id) && id > 0 && id < 2 ** 31).slice(0, MOST_SHEETS);
  const season = Number(query.get('season')) || 0;
  return untoldIds(db, { season, laboratory: query.get('laboratory'), limit: MOST_SHEETS });
}
