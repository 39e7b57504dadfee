import { addressIn, LANGUAGES } from '../messages/languages';
import { type Speech, speechIn } from '../messages/texts';
import { Mark } from './mark';

/** Head of every page: our mark and name, the programme, the pages, the languages, and that data are simulated. */
export function Masthead({
  speech,
  here = '/',
  programme,
  simulated = false,
}: {
  speech: Speech;
  /** Address of this page without its language. */
  here?: string;
  programme?: string;
  simulated?: boolean;
}) {
  const { language, texts, at } = speech;
  return (
    <header className="masthead">
      <div className="masthead-row">
        <a className="home" href={at('/')}>
          <Mark />
          <span>{texts.name}</span>
        </a>
        {programme ? <p className="programme">{programme}</p> : null}
        <nav className="languages" aria-label={texts.otherLanguages}>
          {LANGUAGES.filter((other) => other !== language).map((other) => (
            <a key={other} href={addressIn(other, here)} lang={other} hrefLang={other} rel="alternate">
              {speechIn(other).texts.languageName}
            </a>
          ))}
        </nav>
      </div>
      <nav className="site-nav" aria-label={texts.nav.label}>
        <ul>
          {PAGES.map(([path, name]) => (
            <li key={path}>
              <a href={at(path)} aria-current={isIn(here, path) ? 'page' : undefined}>
                {texts.nav[name]}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      {simulated ? <p className="simulated">{texts.cautions.simulated}</p> : null}
    </header>
  );
}

const PAGES = [
  ['/', 'map'],
  ['/weeds', 'weeds'],
  ['/trends', 'trends'],
  ['/counties', 'counties'],
  ['/methods', 'methods'],
  ['/releases', 'releases'],
  ['/api', 'api'],
] as const;

function isIn(here: string, path: string): boolean {
  const [page] = here.split('?', 1) as [string];
  return page === path || (path !== '/' && page.startsWith(`${path}/`));
}
