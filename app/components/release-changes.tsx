import type { ReleaseChanges } from '@/lib/release/release-changes';
import { sentenceStart } from '../messages/format';
import type { Speech } from '../messages/texts';

/** What changed since the release before, in sentences and as a table by weed and group. */
export function ReleaseChangesSection({
  speech: { texts },
  changes,
}: {
  speech: Speech;
  changes: ReleaseChanges | null | undefined;
}) {
  const { releases } = texts;
  const { table } = releases;
  return (
    <section aria-labelledby="changes-heading">
      <h2 id="changes-heading">{releases.changes}</h2>
      {changes ? (
        <>
          {texts.changesSentences(changes).map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          {changes.byPair.length > 0 ? (
            <div className="wide">
              <table>
                <caption>{table.caption}</caption>
                <thead>
                  <tr>
                    <th scope="col">{table.weed}</th>
                    <th scope="col">{table.group}</th>
                    {COUNTS.map((name) => (
                      <th key={name} scope="col">
                        {table[name]}
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {changes.byPair.map((row) => (
                    <tr key={`${row.species}|${row.group}`}>
                      <th scope="row">{sentenceStart(texts.weedName(row.species))}</th>
                      <td>{row.group}</td>
                      {COUNTS.map((name) => (
                        <td key={name}>{texts.count(row[name])}</td>
                      ))}
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          ) : null}
        </>
      ) : (
        <p>{changes === null ? releases.first : releases.uncounted}</p>
      )}
    </section>
  );
}

const COUNTS = ['appeared', 'changed', 'hidden', 'shown', 'disappeared'] as const;
