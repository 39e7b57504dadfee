import { findingName } from '@/lib/findings/finding-name';
import type { Finding } from '@/lib/findings/types';

/**
 * Where the findings that a release states are not those that follow from its cells: a line for each value that is
 * another one, and for each finding that only one side has. Numbers are compared digit for digit.
 */
export function findingDifferences(stated: readonly Finding[], derived: readonly Finding[]): string[] {
  const byName = new Map(stated.map((finding) => [findingName(finding), finding]));
  if (byName.size < stated.length) return ['The file states a finding twice.'];
  const known = new Set(derived.map(findingName));
  return [
    ...derived.flatMap((finding) => {
      const name = findingName(finding);
      const other = byName.get(name);
      if (!other) return [`${name}: follows from the cells, and the file does not state it.`];
      return valueDifferences('', other, JSON.parse(JSON.stringify(finding))).map(
        (line) => `${name}: ${line}`,
      );
    }),
    ...[...byName.keys()]
      .filter((name) => !known.has(name))
      .map((name) => `${name}: stated in the file, and does not follow from the cells.`),
  ];
}

function valueDifferences(path: string, stated: unknown, derived: unknown): string[] {
  if (isObject(stated) && isObject(derived)) {
    const keys = new Set([...Object.keys(stated), ...Object.keys(derived)]);
    return [...keys].flatMap((key) =>
      valueDifferences(path === '' ? key : `${path}.${key}`, stated[key], derived[key]),
    );
  }
  if (Object.is(stated, derived)) return [];
  return [`${path} is stated as ${told(stated)}, and the cells give ${told(derived)}.`];
}

/** Lists too: their places are their keys. */
function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

function told(value: unknown): string {
  return value === undefined ? 'nothing' : JSON.stringify(value);
}
