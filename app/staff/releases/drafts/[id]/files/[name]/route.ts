import { readDraftFile } from '@/db/repositories/release-drafts';
import { staffRoute } from '../../../../../guard/staff-route';
import { releaseTexts as texts } from '../../../../../messages/releases';

/** A file that the release would have. */
export const GET = staffRoute('releases.see', async ({ db, params, note }) => {
  const id = Number(params.id) || 0;
  const file = await readDraftFile(db, { id, name: params.name ?? '' });
  if (!file) return new Response(`${texts.unknownDraft}\n`, { status: 404 });
  await note(`file of draft ${id}`, { name: params.name });
  return new Response(new Uint8Array(file.bytes), {
    headers: {
      'Content-Type': file.mediaType,
      'Content-Disposition': `attachment; filename="${params.name!.replace(/[^\w.-]/g, '_')}"`,
    },
  });
});
