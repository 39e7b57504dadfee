import { count } from '@/app/messages/en/format';
import {
  applyCaseDefinition,
  currentCaseDefinition,
  listCaseDefinitions,
  type Rederived,
} from '@/db/repositories/case-definitions';
import { may } from '@/lib/access/rights';
import { today } from '@/lib/jobs/today';
import { ActionForm } from '../../components/action-form';
import { DataTable } from '../../components/data-table';
import { staffPage } from '../../guard/staff-page';
import { settingsTexts } from '../../messages/settings';
import { SettingsFoot } from '../settings-foot';
import { applyDefinition } from './actions';
import { DefinitionForm } from './definition-form';

const texts = settingsTexts.definitions;

/** The case definitions, what another one would change, and a form for one of the programme's own. */
export default staffPage('settings.see', async ({ db, person, search }) => {
  const mayChange = may(person.roles, 'settings.change');
  const [all, current] = await Promise.all([listCaseDefinitions(db), currentCaseDefinition(db, today())]);
  const looked = all.find(({ version }) => version === search.version && version !== current.version);
  const would = looked
    ? await applyCaseDefinition(db, { definition: looked, store: false, by: person.name })
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
        {looked && would ? (
          <section aria-labelledby="would">
            <h2 id="would">{texts.would(looked.version)}</h2>
            <Moves would={would} />
            {mayChange ? (
              <ActionForm action={applyDefinition} submit={texts.apply(looked.version)}>
                <input type="hidden" name="version" value={looked.version} />
              </ActionForm>
            ) : null}
          </section>
        ) : null}
        {mayChange ? <DefinitionForm like={current} /> : null}
        <SettingsFoot mayChange={mayChange} />
      </>
    ),
  };
});

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
