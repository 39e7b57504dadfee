import type { Job } from '@/db/repositories/jobs';
import type { Person } from '@/db/repositories/people';
import type { ImportOutcome } from '@/lib/jobs/kinds/import';
import { DataTable } from '../../../components/data-table';
import { OpenJob } from '../../../jobs/open-job';
import { handedInTexts as texts } from '../../../messages/sheets';

/** How a dry run or an import stands, or what came of it. */
export function UploadJob({ job, person }: { job: Job; person: Person }) {
  if (job.finishedAt === null) return <OpenJob job={job} person={person} />;
  if (job.state === 'done') return <Outcome outcome={job.outcome as ImportOutcome} />;
  return (
    <div className="staff-outcome" role="alert">
      <p>{job.state === 'cancelled' ? texts.cancelled : texts.failed}</p>
      {job.message ? <p>{job.message}</p> : null}
    </div>
  );
}

function Outcome({ outcome }: { outcome: ImportOutcome }) {
  const { accepted, inQuestion, refused, populations, tests, firstFinds, storedBefore } = outcome;
  const { notes, codes, reasons } = outcome;
  return (
    <div className="staff-good">
      <p role="status">
        <strong>{texts.outcome(accepted, inQuestion, refused)}</strong>{' '}
        {storedBefore ? texts.storedBefore : texts.brings(populations, tests)}
      </p>
      {firstFinds > 0 ? <p>{texts.firstFinds(firstFinds)}</p> : null}
      {notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      {inQuestion > 0 && outcome.dryRun ? <p>{texts.noQuestion}</p> : null}
      {codes.length > 0 ? (
        <DataTable
          caption={texts.codes}
          columns={texts.codesColumns}
          rows={codes.map(({ code, outcome: came, rows }) => ({
            key: `${code} ${came}`,
            cells: [
              reasons.find((one) => one.code === code)?.reason ?? code,
              came,
              rows.toLocaleString('en'),
            ],
          }))}
        />
      ) : null}
      {reasons.length > 0 ? (
        <details>
          <summary>{texts.reasons}</summary>
          <DataTable
            caption={texts.reasonsMore(reasons.length)}
            columns={texts.reasonsColumns}
            rows={reasons.map(({ record, line, outcome: came, column, value, reason, remedy, code }) => ({
              key: `${record} ${code} ${column}`,
              cells: [record, line ?? '', came, column, value, reason, remedy],
            }))}
          />
        </details>
      ) : null}
    </div>
  );
}
