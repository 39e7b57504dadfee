import { licenceOf } from '@/lib/release/files/licence';
import type { ReleaseHead } from '@/lib/release/types';
import type { Speech } from '../messages/texts';
import { AsTyped } from './as-typed';

/** The files of the release: what each is for, and its sum where there is room for it. */
export function Downloads({ speech, head }: { speech: Speech; head: ReleaseHead }) {
  const { texts } = speech;
  const { number, date, files, note } = head;
  const licence = licenceOf(head.licence);
  return (
    <section className="downloads" aria-labelledby="downloads-heading">
      <h2 id="downloads-heading">{texts.downloads.heading}</h2>
      <p>
        {texts.downloads.released(number, texts.day(date))}{' '}
        {note ? (
          <>
            <AsTyped speech={speech}>{note}</AsTyped>{' '}
          </>
        ) : null}
        {texts.downloads.note}
      </p>
      <p>
        {licence ? (
          <>
            {texts.downloads.licence}{' '}
            <a href={licence.url} rel="license">
              {licence.title}
            </a>
            .
          </>
        ) : (
          texts.downloads.noLicence
        )}
      </p>
      <table>
        <caption className="unseen">{texts.downloads.heading}</caption>
        <thead>
          <tr>
            <th scope="col">{texts.downloads.file}</th>
            <th scope="col">{texts.downloads.size}</th>
            <th scope="col">{texts.downloads.sum}</th>
          </tr>
        </thead>
        <tbody>
          {files.map((file) => (
            <tr key={file.name}>
              <th scope="row">
                <a href={`/releases/${number}/${encodeURIComponent(file.name)}`} download>
                  {file.name}
                </a>
                {texts.purposeOf(file.name) && <p>{texts.purposeOf(file.name)}</p>}
              </th>
              <td>{texts.size(file.bytes)}</td>
              <td>
                <code>{file.sha256}</code>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        {texts.downloads.also} <a href={speech.at('/api')}>{texts.api.heading}</a> ·{' '}
        <a href="/feeds/releases.atom">{texts.downloads.feed}</a> ·{' '}
        <a href={speech.at('/briefing')}>{texts.briefing.link}</a>
      </p>
    </section>
  );
}
