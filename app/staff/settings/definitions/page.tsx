import { count } from '@/app/messages/en/format';
import {
  currentCaseDefinition,
  listCaseDefinitions,
  type Rederived,
} from '@/db/repositories/case-definitions';
import { type Job, latestJob } from '@/db/repositories/jobs';
import { may } from '@/lib/access/rights';
import { today } from '@/lib/jobs/today';
import { DataTable } from '../../components/data-table';
import { staffPage } from '../../guard/staff-page';
import { OpenJob } from '../../jobs/open-job';
import { settingsTexts } from '../../messages/settings';
import { instantWords } from '../../messages/when';
import { SettingsFoot } from '../settings-foot';
import { DefinitionForm } from './definition-form';
import { WouldChange } from './would-change';

const texts = settingsTexts.definitions;

/** The case definitions, what another one would change, and a form for one of the programme's own. */
export default staffPage('settings.see', async ({ db, person, search }) => {
  const mayChange = may(person.roles, 'settings.change');
  const [all, current, applying] = await Promise.all([
    listCaseDefinitions(db),
    currentCaseDefinition(db, today()),
    latestJob(db, 'case-definition', { store: true }),
  ]);
  const looked = all.find(({ version }) => version === search.version && version !== current.version);
  const look = looked
    ? await latestJob(db, 'case-definition', { version: looked.version, store: false })
    : null;
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        <DataTable
          caption={texts.caption}
          columns={texts.columns}
          rows={all.map(({ version, words, source }) => ({
            key: version,
            cells: [
              version,
              words,
              source,
              version === current.version ? (
                texts.current
              ) : (
                <a key="look" href={`/staff/settings/definitions?version=${encodeURIComponent(version)}`}>
                  {texts.look}
                </a>
              ),
            ],
          }))}
        />
        <Applied job={applying} />
        {looked ? (
          <WouldChange version={looked.version} look={look} applying={applying} person={person} />
        ) : applying && applying.finishedAt === null ? (
          <OpenJob job={applying} person={person} />
        ) : null}
        {mayChange ? <DefinitionForm like={current} /> : null}
        <SettingsFoot mayChange={mayChange} />
      </>
    ),
  };
});

/** What came of the last time that a definition was applied. */
function Applied({ job }: { job: Job | null }) {
  if (job?.state === 'failed') return <p className="staff-outcome">{texts.failed(job.message)}</p>;
  if (job?.state !== 'done') return null;
  const { tests, moves } = job.outcome as Rederived;
  const changed = moves.reduce((sum, move) => sum + move.tests, 0);
  return (
    <p className="quiet">
      {texts.applied(instantWords(job.finishedAt!), job.by, count(changed), count(tests))}
    </p>
  );
}
