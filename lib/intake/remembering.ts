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
