import type { ReactNode } from 'react';
import type { Speech } from '../messages/texts';
import { Picture } from './picture';

/** A picture with its name above and its numbers as a table below. */
export function Chart({
  speech: { texts },
  name,
  href,
  note,
  markup,
  small = false,
  children,
}: {
  speech: Speech;
  name: string;
  /** Where the name leads; absent: nowhere. */
  href?: string;
  /** Numbers to read at once, below the picture. */
  note?: string;
  markup: string;
  /** One of many beside each other. */
  small?: boolean;
  /** The table. */
  children: ReactNode;
}) {
  return (
    <figure className="trend-figure">
      <figcaption>{href ? <a href={href}>{name}</a> : name}</figcaption>
      <Picture markup={markup} />
      {note ? <p className="chart-note">{note}</p> : null}
      <details>
        <summary>{small ? texts.trends.table : texts.trend.table}</summary>
        {children}
      </details>
    </figure>
  );
}

/** What a picture shows, said where it stands. */
export function Reading({ speech: { texts }, words }: { speech: Speech; words: string }) {
  return (
    <p className="reading">
      <strong>{texts.trends.read}.</strong> {words}
    </p>
  );
}

/** A table of words: the first of each row names it; a null stands over the rest of the row with the words for it. */
export function PlainTable({
  caption,
  head,
  rows,
  absent = '',
}: {
  caption: string;
  head: readonly string[];
  rows: readonly (readonly [string, ...string[]] | readonly [string, null])[];
  absent?: string;
}) {
  return (
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          {head.map((name) => (
            <th scope="col" key={name}>
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, ...cells]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {cells[0] === null ? (
              <td colSpan={head.length - 1}>{absent}</td>
            ) : (
              // biome-ignore lint/suspicious/noArrayIndexKey: the cells of a row stand in the order of its head
              cells.map((cell, i) => <td key={i}>{cell}</td>)
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
