/**
 * A reader of texts that remembers what it made of them: sheets say the same thousands of times. What it returns must not
 * be changed. Keeps at most `most` texts, then begins anew.
 */
export function remembering<T>(read: (text: string) => T, most = 5_000): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    let value = known.get(text);
    if (value === undefined) {
      value = read(text);
      if (known.size >= most) known.clear();
      known.set(text, value);
    }
    return value;
  };
}

/**
 * A reader of some cells of a row that remembers what it made of the last ones: the rows of a sample mostly stand together
 * and say the same of it. What it returns must not be changed.
 *
 * @param columns all that the reader looks at, but for `more`
 */
export function rememberingLast<C extends string, T>(
  columns: readonly C[],
  read: (cells: Readonly<Record<C, string>>, more: string) => T,
): (cells: Readonly<Record<C, string>>, more?: string) => T {
  let last: { cells: Readonly<Record<C, string>>; more: string; value: T } | null = null;
  return (cells, more = '') => {
    if (last !== null && last.more === more && areSame(last.cells, cells, columns)) return last.value;
    last = { cells, more, value: read(cells, more) };
    return last.value;
  };
}

function areSame<C extends string>(
  a: Readonly<Record<C, string>>,
  b: Readonly<Record<C, string>>,
  columns: readonly C[],
): boolean {
  for (let i = 0; i < columns.length; i++) if (a[columns[i]!] !== b[columns[i]!]) return false;
  return true;
}
