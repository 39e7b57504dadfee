import { addUpload } from '@/db/repositories/uploads';
import { keepFile, removeFile } from '@/lib/jobs/upload-files';
import { staffRoute } from '../../guard/staff-route';
import { laboratoryOf, readHandedIn } from './read-handed-in';

/** Takes in a sheet: written to disk as it comes, then looked at on a page of its own. */
export const POST = staffRoute('sheets.import', async ({ db, person, request, note }) => {
  const { fields, file } = await readHandedIn(request, (source) => keepFile(source, process.env));
  const { fileName, kept } = file;
  try {
    await addUpload(db, { ...kept, fileName, laboratory: laboratoryOf(fields), handedInBy: person.name });
  } catch (error) {
    await removeFile(kept.id, process.env);
    throw error;
  }
  await note(`handed in ${fileName}`, { upload: kept.id, bytes: kept.bytes, sha256: kept.sha256 });
  return new Response(null, { status: 303, headers: { Location: `/staff/sheets/handed-in/${kept.id}` } });
});
