import { keepMapping } from '@/db/repositories/uploads';
import { readForm } from '../../../../guard/read-form';
import { staffRoute } from '../../../../guard/staff-route';
import { mappingForm } from '../../../mapping-fields';

/** Keeps what was chosen so far, after each choice: a browser may break down at any time. */
export const POST = staffRoute('sheets.import', async ({ db, request }) => {
  const type = request.headers.get('content-type') ?? '';
  const form = type.startsWith('multipart/form-data') ? await request.formData() : new FormData();
  const parsed = mappingForm.safeParse(readForm(form));
  if (!parsed.success) return new Response(null, { status: 422 });
  const { upload: id, ...said } = parsed.data;
  await keepMapping(db, { id, ...said });
  return new Response(null, { status: 204 });
});
