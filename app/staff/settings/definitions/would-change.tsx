import { count } from '@/app/messages/en/format';
import type { Rederived } from '@/db/repositories/case-definitions';
import type { Job } from '@/db/repositories/jobs';
import type { Person } from '@/db/repositories/people';
import { may } from '@/lib/access/rights';
import { ActionForm } from '../../components/action-form';
import { DataTable } from '../../components/data-table';
import { OpenJob } from '../../jobs/open-job';
import { settingsTexts } from '../../messages/settings';
import { instantWords } from '../../messages/when';
import { applyDefinition, lookAtDefinition } from './actions';

const texts = settingsTexts.definitions;

/** What another definition would change: the button, how far it is, what came of it, and the button that applies it. */
export function WouldChange(props: {
  version: string;
  /** The last look at this definition; null where nobody had one. */
  look: Job | null;
  /** The last time that any definition was applied. */
  applying: Job | null;
  person: Person;
}) {
  const { version, look, applying, person } = props;
  const open = [look, applying].find((job) => job && job.finishedAt === null);
  const field = <input type="hidden" name="version" value={version} />;
  const isKnown = look?.state === 'done';
  return (
    <section aria-labelledby="would">
      <h2 id="would">{texts.would(version)}</h2>
      {open ? <OpenJob job={open} person={person} /> : null}
      {look?.state === 'failed' ? <p className="staff-outcome">{texts.failed(look.message)}</p> : null}
      {isKnown ? <Moves would={look.outcome as Rederived} /> : null}
      {isKnown ? <p className="quiet">{texts.workedOut(instantWords(look.finishedAt!))}</p> : null}
      {open ? null : (
        <ActionForm action={lookAtDefinition} submit={isKnown ? texts.lookAgain : texts.workOut}>
          {field}
        </ActionForm>
      )}
      {isKnown && !open && may(person.roles, 'settings.change') ? (
        <ActionForm action={applyDefinition} submit={texts.apply(version)}>
          {field}
        </ActionForm>
      ) : null}
    </section>
  );
}

function Moves({ would: { tests, moves } }: { would: Rederived }) {
  if (moves.length === 0) return <p>{texts.none(count(tests))}</p>;
  return (
    <DataTable
      caption={texts.moves}
      columns={texts.moveColumns}
      rows={moves.map(({ before, after, tests: moved }) => ({
        key: `${before}|${after}`,
        cells: [before ?? texts.noResult, after ?? texts.noResult, count(moved)],
      }))}
    />
  );
}
