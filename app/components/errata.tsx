import type { ListedRelease } from '@/db/repositories/published';
import type { Speech } from '../messages/texts';
import { AsTyped } from './as-typed';

/** What was found wrong with the release after it was published: before anything is read from it. */
export function Errata({
  speech,
  release,
  errata,
  folder = `/releases/${release}/`,
}: {
  speech: Speech;
  release: number;
  errata: ListedRelease['errata'];
  /** Address of the folder of the release's files, with a slash at its end; default: on the site. */
  folder?: string;
}) {
  if (errata.length === 0) return null;
  const { texts } = speech;
  return (
    <aside className="errata" aria-labelledby="errata-heading">
      <h2 id="errata-heading">{texts.errata.heading(release)}</h2>
      <dl>
        {errata.map(({ number, date, text, file }) => (
          <div key={number}>
            <dt>{texts.errata.dated(number, texts.day(date))}</dt>
            <dd>
              <AsTyped speech={speech}>{text}</AsTyped>{' '}
              <a href={`${folder}${encodeURIComponent(file.name)}`} download>
                {file.name}
              </a>{' '}
              (
              <a href={`${folder}${encodeURIComponent(file.name)}.sha256`} download>
                {texts.downloads.sum}
              </a>
              )
            </dd>
          </div>
        ))}
      </dl>
      <p className="quiet">{texts.errata.note}</p>
    </aside>
  );
}
