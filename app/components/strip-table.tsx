import type { Speech } from '../messages/texts';
import type { PlaceNumbers } from '../view/place-numbers';
import { WeedCell } from './weed-cell';

export interface StripRow {
  key: string;
  name: string;
  /** Where the name leads; absent: nowhere. */
  href?: string;
  numbers: readonly PlaceNumbers[];
}

/**
 * Places by columns, each number as a strip and in words. One table: side by side where there is room, a block for each
 * place on a phone. Its roles are said outright, because a block is no table to a browser.
 */
export function StripTable({
  speech,
  caption,
  columns,
  rows,
}: {
  speech: Speech;
  caption: string;
  columns: readonly string[];
  rows: readonly StripRow[];
}) {
  return (
    // biome-ignore-start lint/a11y/noRedundantRoles: styles make blocks of it on a phone, which takes its roles away
    <table className="strip-table" role="table">
      <caption>{caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          <th scope="col" role="columnheader">
            {speech.texts.weed.districts.place}
          </th>
          {columns.map((column) => (
            <th scope="col" role="columnheader" key={column}>
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map(({ key, name, href, numbers }) => (
          <tr key={key} role="row">
            <th scope="row" role="rowheader">
              {href ? <a href={href}>{name}</a> : name}
            </th>
            {numbers.map((one, i) => (
              <td role="cell" key={columns[i]}>
                <span className="cell-group" aria-hidden="true">
                  {columns[i]}
                </span>
                <WeedCell speech={speech} numbers={one} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
    // biome-ignore-end lint/a11y/noRedundantRoles: as above
  );
}
