import type { ReactNode } from 'react';

/** A table whose first column names the row; where it is too wide it scrolls in itself, by keyboard too. */
export function DataTable(props: {
  caption: string;
  columns: readonly string[];
  rows: readonly { key: string | number; cells: readonly ReactNode[] }[];
}) {
  const { caption, columns, rows } = props;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section className="staff-scroll" aria-label={caption} tabIndex={0}>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column} scope="col">
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, cells }) => (
            <tr key={key}>
              {cells.map((cell, at) =>
                at === 0 ? (
                  <th key={columns[at]} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={columns[at]}>{cell}</td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
