import { type ImportedSheet, listImports } from '@/db/repositories/imports';
import { listLaboratories } from '@/db/repositories/laboratories';
import { type Upload, waitingUploads } from '@/db/repositories/uploads';
import { may } from '@/lib/access/rights';
import { largestUpload } from '@/lib/jobs/upload-files';
import { DataTable } from '../components/data-table';
import { staffPage } from '../guard/staff-page';
import { sheetTexts as texts } from '../messages/sheets';
import { HandIn } from './hand-in-form';
import '@/app/styles/staff/sheets.css';

/** All imports, what waits to be imported, and a place to hand in a sheet. */
export default staffPage('sheets.see', async ({ db, person, programme }) => {
  const [imports, waiting, laboratories] = await Promise.all([
    listImports(db),
    waitingUploads(db),
    listLaboratories(db),
  ]);
  const names = [...new Set([...(programme ? [programme.laboratory] : []), ...laboratories])];
  return {
    title: texts.title,
    content: (
      <>
        {may(person.roles, 'sheets.import') ? (
          <section aria-labelledby="hand-in">
            <h2 id="hand-in">{texts.handIn}</h2>
            {programme ? (
              <HandIn mostBytes={largestUpload(process.env)} laboratories={names} />
            ) : (
              <p>{texts.noProgramme}</p>
            )}
          </section>
        ) : null}
        {waiting.length > 0 ? (
          <DataTable
            caption={texts.waitingHeading}
            columns={texts.waitingColumns}
            rows={waiting.map(waitingRow)}
          />
        ) : null}
        {imports.length > 0 ? (
          <DataTable caption={texts.listHeading} columns={texts.columns} rows={imports.map(importRow)} />
        ) : (
          <p>{texts.none}</p>
        )}
      </>
    ),
  };
});

const minute = (at: Date) => at.toISOString().slice(0, 16).replace('T', ' ');

function waitingRow({ id, fileName, laboratory, handedInAt, handedInBy, bytes }: Upload) {
  return {
    key: id,
    cells: [
      <a key="file" href={`/staff/sheets/handed-in/${id}`}>
        {fileName}
      </a>,
      laboratory,
      minute(handedInAt),
      handedInBy,
      texts.size(bytes),
    ],
  };
}

function importRow({ id, fileName, laboratory, importedAt, importedBy, ...sheet }: ImportedSheet) {
  const { accepted, inQuestion, refused, undoneAt } = sheet;
  return {
    key: id,
    cells: [
      <a key="import" href={`/staff/sheets/${id}`}>
        {id}
      </a>,
      fileName,
      laboratory,
      minute(importedAt),
      importedBy,
      accepted.toLocaleString('en'),
      inQuestion.toLocaleString('en'),
      refused.toLocaleString('en'),
      undoneAt ? texts.undone(minute(undoneAt)) : texts.stands,
    ],
  };
}
