import type { Speech } from '../messages/texts';

/** Foot of every page: what explains the numbers, and where they can be had otherwise. */
export function SiteFoot({ speech: { texts, at } }: { speech: Speech }) {
  return (
    <footer className="site-foot">
      <nav aria-label={texts.foot.label}>
        <ul>
          {LINKS.map(([path, name]) => (
            <li key={path}>
              <a href={at(path)}>{texts.foot[name]}</a>
            </li>
          ))}
          <li>
            <a href="/feeds/releases.atom">{texts.downloads.feed}</a>
          </li>
        </ul>
      </nav>
      <p>{texts.foot.source}</p>
    </footer>
  );
}

const LINKS = [
  ['/methods', 'methods'],
  ['/privacy', 'privacy'],
  ['/words', 'words'],
  ['/releases', 'releases'],
  ['/api', 'api'],
] as const;
