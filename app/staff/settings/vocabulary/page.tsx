import { listVocabulary } from '@/db/repositories/vocabulary';
import { may } from '@/lib/access/rights';
import type { Additions } from '@/lib/vocabulary/additions';
import { DataTable } from '../../components/data-table';
import { staffPage } from '../../guard/staff-page';
import { settingsTexts } from '../../messages/settings';
import { SettingsFoot } from '../settings-foot';
import { VocabularyForms } from './vocabulary-forms';

const texts = settingsTexts.vocabulary;

/** Words that the programme added, and forms for more. */
export default staffPage('settings.see', async ({ db, person }) => {
  const mayAdd = may(person.roles, 'vocabulary.add');
  const rows = (await listVocabulary(db)).flatMap(rowsOf).map((cells, key) => ({ key, cells }));
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        {rows.length === 0 ? (
          <p>{texts.none}</p>
        ) : (
          <DataTable caption={texts.caption} columns={texts.columns} rows={rows} />
        )}
        {mayAdd ? <VocabularyForms /> : null}
        <SettingsFoot mayChange={mayAdd} />
      </>
    ),
  };
});

function rowsOf({ source, species, words, actives }: Additions): string[][] {
  return [
    ...species.map((one) => texts.weed(one.commonName, one.scientificName, one.eppo)),
    ...words.map(({ word, eppo }) => texts.word(word, eppo)),
    ...actives.map(({ name, group }) => texts.active(name, group)),
  ].map((what) => [what, source]);
}
