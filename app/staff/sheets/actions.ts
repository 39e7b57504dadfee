'use server';

import { z } from 'zod';
import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { refuseUndo } from '@/db/repositories/imports';
import { readJob } from '@/db/repositories/jobs';
import { changeLaboratory } from '@/db/repositories/laboratories';
import {
  keepMapping,
  noteUploadJob,
  putUploadAway,
  readUpload,
  type Upload,
} from '@/db/repositories/uploads';
import { columnOf } from '@/lib/intake/columns';
import { enqueue } from '@/lib/jobs/enqueue';
import { removeFile } from '@/lib/jobs/upload-files';
import { staffAction } from '../guard/staff-action';
import { handedInTexts, sheetTexts as texts } from '../messages/sheets';
import { mappingForm } from './mapping-fields';

const which = z.object({ upload: z.uuid() });
const pageOf = (id: string) => `/staff/sheets/handed-in/${id}`;

/** Keeps what the headings mean and asks for a dry run. */
export const tryUpload = staffAction('sheets.import', mappingForm, async ({ db, person, input }) => {
  const { upload: id, ...said } = input;
  const { fileName } = await free(db, id);
  await keepMapping(db, { id, ...said });
  const job = await enqueue(db, {
    kind: 'import',
    request: { upload: id, dryRun: true },
    by: person.name,
    personId: person.id,
  });
  await noteUploadJob(db, { id, job, dryRun: true });
  return {
    say: handedInTexts.begun,
    go: pageOf(id),
    about: `tried ${fileName}`,
    details: { upload: id, job },
  };
});

/** Asks for the import, and remembers for the laboratory what its headings mean. */
export const importHandedIn = staffAction('sheets.import', which, async ({ db, person, input }) => {
  const { id, fileName, laboratory, mapping } = await free(db, input.upload);
  const told = Object.entries(mapping.headings).filter(([key, column]) => columnOf(key) !== column);
  const change = { headings: Object.fromEntries(told), lacking: mapping.lacking };
  await changeLaboratory(db, { name: laboratory, change, by: person.name });
  const job = await enqueue(db, {
    kind: 'import',
    request: { upload: id, dryRun: false },
    by: person.name,
    personId: person.id,
  });
  await noteUploadJob(db, { id, job, dryRun: false });
  return {
    say: handedInTexts.begun,
    go: pageOf(id),
    about: `imports ${fileName}`,
    details: { upload: id, job },
  };
});

/** Removes a file that was handed in, without importing it. */
export const putAway = staffAction('sheets.import', which, async ({ db, input }) => {
  const { id, fileName } = await free(db, input.upload);
  await putUploadAway(db, { id, sheetId: null });
  await removeFile(id, process.env);
  return { say: handedInTexts.putAwayDone, go: '/staff/sheets', about: `put ${fileName} away` };
});

/** Asks that an import be undone as a whole. */
export const undoSheet = staffAction(
  'sheets.undo',
  z.object({
    sheet: z.coerce.number().int().positive(),
    why: z.string().trim().min(1, texts.noWhy).max(1_000),
  }),
  async ({ db, person, input }) => {
    await refuseUndo(db.$client, input.sheet);
    const job = await enqueue(db, {
      kind: 'undo-import',
      ...{ request: input, by: person.name, personId: person.id },
    });
    return { say: texts.undoAsked, about: `import ${input.sheet}`, details: { why: input.why, job } };
  },
);

/** A file that nobody imports or has imported. @throws UserError where somebody does: who, and since when */
async function free(db: StaffDatabase, id: string): Promise<Upload> {
  const upload = await readUpload(db, id, { forChange: true });
  const job = upload.importJob === null ? null : await readJob(db, upload.importJob);
  if (job && job.state !== 'failed' && job.state !== 'cancelled') {
    const when = job.requestedAt.slice(0, 16).replace('T', ' ');
    throw new UserError(`${job.by} has asked for this import already (${when} UTC).`, 'See how it stands.');
  }
  if (upload.putAwayAt !== null) throw new UserError(handedInTexts.gone, 'Hand it in again.');
  return upload;
}
