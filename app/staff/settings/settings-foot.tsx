import { settingsTexts as texts } from '../messages/settings';

/** The way back, and for whoever may not change what the page shows, a word of it. */
export function SettingsFoot({ mayChange = true }: { mayChange?: boolean }) {
  return (
    <>
      {mayChange ? null : <p className="quiet">{texts.may}</p>}
      <p>
        <a href="/staff/settings">{texts.all}</a>
      </p>
    </>
  );
}
