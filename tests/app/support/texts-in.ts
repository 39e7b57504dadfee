/** All texts of a language that are no functions, by their path. */
export function textsIn(value: unknown, path = ''): Map<string, string> {
  if (typeof value === 'string') return new Map([[path, value]]);
  if (typeof value !== 'object' || value === null) return new Map();
  return new Map(
    Object.entries(value).flatMap(([key, inner]) => [...textsIn(inner, path ? `${path}.${key}` : key)]),
  );
}
