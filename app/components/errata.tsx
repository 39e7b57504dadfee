import type { ListedRelease } from '@/db/repositories/published';
import { en } from '../messages/en';
import { day } from '../messages/format';

/** What was found wrong with the release after it was published: before anything is read from it. */
export function Errata({
  release,
  errata,
  folder,
}: {
  release: number;
  errata: ListedRelease['errata'];
  /** Address of the folder of the release's files, with a slash at its end. */
  folder: string;
}) {
  if (errata.length === 0) return null;
  return (
    <aside className="errata" aria-labelledby="errata-heading">
      <h2 id="errata-heading">{en.errata.heading(release)}</h2>
      <dl>
        {errata.map(({ number, date, text, file }) => (
          <div key={number}>
            <dt>{en.errata.dated(number, day(date))}</dt>
            <dd>
              {text}{' '}
              <a href={`${folder}${encodeURIComponent(file.name)}`} download>
                {file.name}
              </a>{' '}
              (
              <a href={`${folder}${encodeURIComponent(file.name)}.sha256`} download>
                {en.downloads.sum}
              </a>
              )
            </dd>
          </div>
        ))}
      </dl>
      <p className="quiet">{en.errata.note}</p>
    </aside>
  );
}
