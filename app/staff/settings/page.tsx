import { staffPage } from '../guard/staff-page';
import { settingsTexts as texts } from '../messages/settings';

/** What can be set, each on a page of its own. */
export default staffPage('settings.see', async () => ({
  title: texts.title,
  content: (
    <ul className="staff-waits">
      {texts.sections.map(([path, name, what]) => (
        <li key={path}>
          <a href={`/staff/settings/${path}`}>{name}</a>
          <p className="quiet">{what}</p>
        </li>
      ))}
    </ul>
  ),
}));
