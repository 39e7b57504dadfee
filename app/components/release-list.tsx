import type { ListedRelease } from '@/db/repositories/published';
import type { Speech } from '../messages/texts';
import { AsTyped } from './as-typed';
import '../styles/releases.css';

/** Releases, newest first: when, what is said of each, what changed, what was found wrong with it since. */
export function ReleaseList({
  speech,
  releases,
  newest,
}: {
  speech: Speech;
  releases: readonly ListedRelease[];
  newest: number | null;
}) {
  const { texts, at } = speech;
  return (
    <ol className="release-list" reversed>
      {releases.map(({ number, date, note, withdrawn, errata, changes }) => (
        <li key={number} className={withdrawn ? 'release gone' : 'release'}>
          <h2>
            <a href={at(`/releases/${number}`)}>{texts.releases.one(number)}</a>
            {number === newest ? <small>{texts.releases.newest}</small> : null}
            {withdrawn ? <small>{texts.releases.withdrawn(withdrawn.at)}</small> : null}
          </h2>
          <p className="quiet">{texts.releases.dated(date)}</p>
          {withdrawn ? (
            <p>
              <AsTyped speech={speech}>{withdrawn.note}</AsTyped>
            </p>
          ) : (
            <>
              {note ? (
                <p>
                  <AsTyped speech={speech}>{note}</AsTyped>
                </p>
              ) : null}
              <p>
                {changes === undefined
                  ? texts.releases.uncounted
                  : changes === null
                    ? texts.releases.first
                    : texts.changesSentences(changes).join(' ')}
              </p>
              {errata.length > 0 ? (
                <ul>
                  {errata.map((erratum) => (
                    <li key={erratum.number}>
                      {texts.errata.dated(erratum.number, texts.day(erratum.date))}:{' '}
                      <AsTyped speech={speech}>{erratum.text}</AsTyped>
                    </li>
                  ))}
                </ul>
              ) : null}
            </>
          )}
        </li>
      ))}
    </ol>
  );
}
