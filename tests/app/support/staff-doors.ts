import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { Right } from '@/lib/access/rights';

/** A way into the staff side: a page, a route or an action, and the right that it asks for; null asks for none. */
export interface StaffDoor {
  kind: 'page' | 'route' | 'action';
  /** File below the project's root. */
  file: string;
  /** Name of the export. */
  name: string;
  right: Right | null;
}

/**
 * All ways into the staff side, read from its sources. `right` is null for whatever does not go through `staffPage`,
 * `staffRoute` or `staffAction`.
 */
export function staffDoors(root: string): StaffDoor[] {
  const folder = join(root, 'app', 'staff');
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.tsx?$/.test(path))
    .sort()
    .flatMap((path) => doorsOf(relative(root, join(folder, path)), readFileSync(join(folder, path), 'utf8')));
}

function doorsOf(file: string, source: string): StaffDoor[] {
  if (file.endsWith('/page.tsx'))
    return [{ kind: 'page', file, name: 'default', right: rightOf(source, 'staffPage') }];
  if (file.endsWith('/route.ts')) {
    return exportsOf(source).map(([name, rest]) => ({
      kind: 'route',
      file,
      name,
      right: rightOf(rest, 'staffRoute'),
    }));
  }
  if (/^\s*'use server'/.test(source)) {
    return exportsOf(source).map(([name, rest]) => ({
      kind: 'action',
      file,
      name,
      right: rightOf(rest, 'staffAction'),
    }));
  }
  return [];
}

/** Each exported value: its name, and the source from its declaration to the next. */
function exportsOf(source: string): (readonly [name: string, rest: string])[] {
  const found = [...source.matchAll(/^export (?:default |async |const |let |function |class )+(\w+)/gm)];
  return found.map((match, at) => [match[1]!, source.slice(match.index, found[at + 1]?.index)] as const);
}

function rightOf(source: string, wrapper: string): Right | null {
  const [, right] =
    new RegExp(`^export (?:default|const \\w+ =) ${wrapper}\\(\\s*'([\\w.]+)'`, 'm').exec(source) ?? [];
  return (right as Right | undefined) ?? null;
}

/** An action as the build knows it. */
export interface BuiltAction {
  id: string;
  file: string;
  name: string;
  /** Address of a page from which it is sent. */
  page: string;
}

/** All server actions of the build. */
export function builtActions(root: string): BuiltAction[] {
  const path = join(root, '.next', 'server', 'server-reference-manifest.json');
  const { node } = JSON.parse(readFileSync(path, 'utf8')) as {
    node: Record<string, { filename: string; exportedName: string; workers: Record<string, unknown> }>;
  };
  return Object.entries(node).map(([id, { filename, exportedName, workers }]) => ({
    id,
    file: filename,
    name: exportedName,
    page: addressOf(Object.keys(workers)[0]!.replace(/^app/, '')),
  }));
}

/** The address of a page or route by its folder, with a 1 for each part that varies. */
export function addressOf(file: string): string {
  return file
    .replace(/^app/, '')
    .replace(/\/(page|route)(\.tsx?)?$/, '')
    .replaceAll(/\[[^\]]+\]/g, '1');
}
