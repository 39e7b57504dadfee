import { day } from '@/app/messages/en/format';
import { listFirstFinds } from '@/db/repositories/first-finds';
import { listJobs } from '@/db/repositories/jobs';
import { listSeasons } from '@/db/repositories/programme';
import { asksTwoPersons, listDrafts } from '@/db/repositories/release-drafts';
import { listReleases, type ReleaseLine } from '@/db/repositories/release-overview';
import { unreported } from '@/db/repositories/reported';
import { may } from '@/lib/access/rights';
import { ActionForm } from '../components/action-form';
import { DataTable } from '../components/data-table';
import { Field } from '../components/field';
import { staffPage } from '../guard/staff-page';
import { OpenJob } from '../jobs/open-job';
import { releaseTexts as texts } from '../messages/releases';
import { instantWords } from '../messages/when';
import { draftRelease } from './actions';
import { BeforeDraft } from './before-draft';

/** All releases, the draft that waits for a decision, and how to make one. */
export default staffPage('releases.see', async ({ db, person }) => {
  const [releases, drafts, [job], seasons, finds, untold, two] = await Promise.all([
    listReleases(db),
    listDrafts(db, 1),
    listJobs(db, { kinds: ['release-draft'], limit: 1 }),
    listSeasons(db),
    listFirstFinds(db),
    unreported(db),
    asksTwoPersons(db),
  ]);
  const open = drafts.find(({ state }) => state === 'open');
  const isBusy = job !== undefined && job.finishedAt === null;
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        {open ? (
          <section className="staff-panel" aria-labelledby="open-draft">
            <h2 id="open-draft">{texts.openHeading}</h2>
            <p>{texts.open(open.number, open.madeBy, instantWords(open.madeAt))}</p>
            <p>
              <a className="staff-button" href={`/staff/releases/drafts/${open.id}`}>
                {texts.look}
              </a>
            </p>
          </section>
        ) : null}
        <section aria-labelledby="draft">
          <h2 id="draft">{texts.draftHeading}</h2>
          {isBusy ? <OpenJob job={job} person={person} /> : null}
          {job?.state === 'failed' ? (
            <p className="staff-outcome">{texts.lastJob.failed(job.message)}</p>
          ) : null}
          {job?.state === 'cancelled' && job.cancelledBy ? (
            <p>{texts.lastJob.cancelled(job.cancelledBy)}</p>
          ) : null}
          <BeforeDraft
            seasons={seasons}
            finds={finds.filter(({ confirmedAt }) => confirmedAt === null).length}
            untold={untold}
          />
          {!isBusy && may(person.roles, 'releases.draft') ? (
            <ActionForm action={draftRelease} submit={texts.draftButton} label={texts.draftHeading}>
              <p>{texts.draftText}</p>
              <Field
                name="date"
                type="date"
                label={texts.date}
                value={new Date().toISOString().slice(0, 10)}
                required
              />
              <Field name="note" label={texts.note} hint={texts.noteHint} lines={3} />
            </ActionForm>
          ) : null}
        </section>
        <section>
          <h2>{texts.published}</h2>
          {releases.length === 0 ? (
            <p>{texts.none}</p>
          ) : (
            <DataTable caption={texts.published} columns={texts.columns} rows={releases.map(row)} />
          )}
        </section>
        <section aria-labelledby="practice">
          <h2 id="practice">{texts.practice}</h2>
          <p>{two ? texts.twoPersonsOn : texts.onePerson}</p>
        </section>
      </>
    ),
  };
});

function row(release: ReleaseLine) {
  const { number, date, note, withdrawnAt, withdrawalNote, errata, madeBy, decidedBy } = release;
  return {
    key: number,
    cells: [
      <a key="number" href={`/staff/releases/${number}`}>
        {texts.releaseTitle(number)}
      </a>,
      day(date),
      note,
      withdrawnAt ? texts.withdrawn(withdrawnAt, withdrawalNote ?? '') : texts.stands(errata),
      madeBy ?? texts.byCommand,
      decidedBy ?? texts.byCommand,
    ],
  };
}
