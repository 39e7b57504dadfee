/** What stands behind the question mark as a page gets it: a name that comes several times is a list. */
export function searchOf(params: URLSearchParams): Record<string, string | string[]> {
  return Object.fromEntries(
    [...new Set(params.keys())].map((name) => {
      const all = params.getAll(name);
      return [name, all.length > 1 ? all : all[0]!];
    }),
  );
}
