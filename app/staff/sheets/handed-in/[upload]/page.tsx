import type { StaffDatabase } from '@/db/clients/staff';
import { type Job, readJob } from '@/db/repositories/jobs';
import { laboratoryProfile } from '@/db/repositories/laboratories';
import { findUpload, type Upload } from '@/db/repositories/uploads';
import { previewSheet, type SheetPreview } from '@/lib/intake/preview-sheet';
import { SheetError } from '@/lib/intake/sheet-error';
import type { ImportOutcome } from '@/lib/jobs/kinds/import';
import { mapped } from '@/lib/jobs/mapped';
import { uploadPath } from '@/lib/jobs/upload-files';
import { ActionForm } from '../../../components/action-form';
import { Sorry } from '../../../components/sorry';
import { staffPage } from '../../../guard/staff-page';
import { handedInTexts as texts } from '../../../messages/sheets';
import { importHandedIn, putAway } from '../../actions';
import { MappingForm } from './mapping-form';
import { UploadJob } from './outcome';
import '@/app/styles/staff/sheets.css';

/** A sheet that was handed in, on its way: what its headings mean, what would come of it, the import. */
export default staffPage('sheets.import', async ({ db, person, params }) => {
  const upload = await findUpload(db, params.upload!);
  if (!upload) return { title: texts.unknown, status: 404, content: <Sorry text={texts.unknownText} /> };
  const [trial, imported] = await Promise.all([jobOf(db, upload.trialJob), jobOf(db, upload.importJob)]);
  const began = imported !== null && imported.state !== 'failed' && imported.state !== 'cancelled';
  const isAway = upload.putAwayAt !== null;
  const preview = isAway || began ? null : await previewOf(db, upload);
  const busy = trial?.finishedAt === null;
  return {
    title: texts.title(upload.fileName),
    content: (
      <>
        {isAway ? <p>{texts.gone}</p> : null}
        {preview && 'wrong' in preview ? <Unreadable wrong={preview.wrong} /> : null}
        {preview && 'headings' in preview && !busy ? (
          <section aria-labelledby="headings">
            <h2 id="headings">{texts.headings}</h2>
            <MappingForm upload={upload} preview={preview} />
          </section>
        ) : null}
        {began ? null : (
          <section aria-labelledby="trial">
            <h2 id="trial">{texts.tryHeading}</h2>
            {trial ? <UploadJob job={trial} person={person} /> : <p>{texts.notTried}</p>}
          </section>
        )}
        {imported || (isFit(trial) && !isAway) ? (
          <section aria-labelledby="import">
            <h2 id="import">{texts.importHeading}</h2>
            {imported ? <UploadJob job={imported} person={person} /> : null}
            {began ? null : <ImportForm id={upload.id} />}
          </section>
        ) : null}
        {upload.sheetId !== null ? (
          <p>
            <a href={`/staff/sheets/${upload.sheetId}`}>{texts.toImport(upload.sheetId)}</a>
          </p>
        ) : null}
        {isAway || began || busy ? null : (
          <ActionForm action={putAway} submit={texts.putAway} label={texts.putAway} grave>
            <input type="hidden" name="upload" value={upload.id} />
            <p className="quiet">{texts.putAwayText}</p>
          </ActionForm>
        )}
      </>
    ),
  };
});

function ImportForm({ id }: { id: string }) {
  return (
    <ActionForm action={importHandedIn} submit={texts.importButton} label={texts.importHeading}>
      <input type="hidden" name="upload" value={id} />
      <p>{texts.importText}</p>
    </ActionForm>
  );
}

function Unreadable({ wrong }: { wrong: string }) {
  return (
    <div className="staff-outcome" role="alert">
      <p>{texts.unreadable}</p>
      <p>{wrong}</p>
    </div>
  );
}

const jobOf = (db: StaffDatabase, id: string | null) => (id === null ? null : readJob(db, id));

/** Whether a dry run showed rows that an import would bring. */
function isFit(trial: Job | null): boolean {
  if (trial?.state !== 'done') return false;
  const { accepted, inQuestion, storedBefore } = trial.outcome as ImportOutcome;
  return accepted + inQuestion > 0 && !storedBefore;
}

async function previewOf(db: StaffDatabase, upload: Upload): Promise<SheetPreview | { wrong: string }> {
  const profile = mapped(await laboratoryProfile(db, upload.laboratory), upload.mapping);
  try {
    return await previewSheet(uploadPath(upload.id, process.env), profile);
  } catch (error) {
    if (error instanceof SheetError) return { wrong: error.message };
    throw error;
  }
}
