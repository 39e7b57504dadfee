import { day } from '@/app/messages/en/format';
import { latestJob } from '@/db/repositories/jobs';
import { readReleaseOverview } from '@/db/repositories/release-overview';
import { may } from '@/lib/access/rights';
import { ActionForm } from '../../components/action-form';
import { Field } from '../../components/field';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { releaseTexts as texts } from '../../messages/releases';
import { addNote, takeBack } from '../actions';
import { FindingLossSection } from '../finding-loss';

/** A published release: its audit, its errata, and how to withdraw it. */
export default staffPage('releases.see', async ({ db, side, person, params }) => {
  const release = await readReleaseOverview(db, Number(params.number) || 0);
  if (!release) return { title: texts.title, content: <Sorry text={texts.unknownRelease} /> };
  const { number, date, head, audit, notes, withdrawnAt, withdrawalNote } = release;
  const { closedSeasons: closed } = head;
  const stands = withdrawnAt === null;
  const of = { release: number };
  const compared = await latestJob(db, 'finding-loss', of);
  const field = <input type="hidden" name="number" value={number} />;
  return {
    title: texts.releaseTitle(number),
    content: (
      <>
        {stands ? null : (
          <p className="staff-outcome">{texts.withdrawn(withdrawnAt, withdrawalNote ?? '')}</p>
        )}
        <p>{texts.facts(date, head.pairs.length, `${closed[0]}–${closed.at(-1)}`)}</p>
        {head.note ? <p>{head.note}</p> : null}
        {stands ? (
          <p>
            <a href={`${side.settings.publicSite}/?release=${number}`}>{texts.seeIt}</a>
          </p>
        ) : null}
        {audit ? (
          <section aria-labelledby="audit">
            <h2 id="audit">{texts.audit}</h2>
            <p>{texts.auditOf(audit.publishedCells, audit.withheldCells, audit.programs)}</p>
          </section>
        ) : null}
        <FindingLossSection of={of} job={compared} person={person} isOpen={stands} />
        <section aria-labelledby="errata">
          <h2 id="errata">{texts.errataHeading}</h2>
          {notes.length === 0 ? <p>{texts.noErrata}</p> : null}
          <ol>
            {notes.map((note) => (
              <li key={note.number}>
                {day(note.date)}: {note.text}
              </li>
            ))}
          </ol>
          {stands && may(person.roles, 'releases.publish') ? (
            <ActionForm action={addNote} submit={texts.erratumButton} label={texts.errataHeading}>
              {field}
              <p>{texts.erratumText}</p>
              <Field name="text" label={texts.erratumField} lines={3} required />
            </ActionForm>
          ) : null}
        </section>
        {stands && may(person.roles, 'releases.withdraw') ? (
          <section aria-labelledby="withdraw">
            <h2 id="withdraw">{texts.withdrawHeading}</h2>
            <ActionForm
              action={takeBack}
              submit={texts.withdrawButton(number)}
              label={texts.withdrawHeading}
              grave
            >
              {field}
              <p>{texts.withdrawText}</p>
              <Field name="text" label={texts.withdrawField} lines={3} required />
            </ActionForm>
          </section>
        ) : null}
      </>
    ),
  };
});
