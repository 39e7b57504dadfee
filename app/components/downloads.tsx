import { licenceOf, NO_LICENCE } from '@/lib/release/files/licence';
import { purposeOf } from '@/lib/release/files/purposes';
import type { ReleaseHead } from '@/lib/release/types';
import { en } from '../messages/en';
import { day, size } from '../messages/format';

/** The files of the release: what each is for, and its sum where there is room for it. */
export function Downloads({ head }: { head: ReleaseHead }) {
  const { number, date, files, note } = head;
  const licence = licenceOf(head.licence);
  return (
    <section className="downloads" aria-labelledby="downloads-heading">
      <h2 id="downloads-heading">{en.downloads.heading}</h2>
      <p>
        Release {number} of {day(date)}. {note ? `${note} ` : ''}
        {en.downloads.note}
      </p>
      <p>
        {licence ? (
          <>
            {en.downloads.licence}{' '}
            <a href={licence.url} rel="license">
              {licence.title}
            </a>
            .
          </>
        ) : (
          NO_LICENCE
        )}
      </p>
      <table>
        <caption className="unseen">{en.downloads.heading}</caption>
        <thead>
          <tr>
            <th scope="col">{en.downloads.file}</th>
            <th scope="col">{en.downloads.size}</th>
            <th scope="col">{en.downloads.sum}</th>
          </tr>
        </thead>
        <tbody>
          {files.map((file) => (
            <tr key={file.name}>
              <th scope="row">
                <a href={`/releases/${number}/${encodeURIComponent(file.name)}`} download>
                  {file.name}
                </a>
                {purposeOf(file.name) && <p>{purposeOf(file.name)}</p>}
              </th>
              <td>{size(file.bytes)}</td>
              <td>
                <code>{file.sha256}</code>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        {en.downloads.also} <a href="/api">{en.api.heading}</a> ·{' '}
        <a href="/feeds/releases.atom">{en.downloads.feed}</a>
      </p>
    </section>
  );
}
