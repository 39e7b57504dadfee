import { listLaboratories } from '@/db/repositories/laboratories';
import { staffPage } from '../../guard/staff-page';
import { settingsTexts } from '../../messages/settings';
import { SettingsFoot } from '../settings-foot';

const texts = settingsTexts.laboratories;

/** The laboratories that sent sheets. */
export default staffPage('settings.see', async ({ db }) => {
  const names = await listLaboratories(db);
  return {
    title: texts.title,
    content: (
      <>
        <p>{names.length === 0 ? texts.none : texts.intro}</p>
        <ul className="staff-links">
          {names.map((name) => (
            <li key={name}>
              <a href={`/staff/settings/laboratories/${encodeURIComponent(name)}`}>{name}</a>
            </li>
          ))}
        </ul>
        <SettingsFoot />
      </>
    ),
  };
});
