import { unzipSync } from 'fflate';
import { archive } from './archive';

/** A part of an office document: its name in the package and its bytes. */
export interface Part {
  name: string;
  bytes: Uint8Array;
}

/**
 * The parts of an office document (a ZIP) packed anew in a fixed order and dated by `date` (ISO day): the libraries that write
 * such documents date them by the clock.
 *
 * @param change of each part, before it is packed
 */
export function repacked(
  bytes: Uint8Array,
  date: string,
  change: (part: Part, names: readonly string[]) => Part = (part) => part,
): Uint8Array {
  const parts = unzipSync(bytes);
  const names = Object.keys(parts).filter((name) => !name.endsWith('/'));
  const changed = names
    .map((name) => change({ name, bytes: parts[name]! }, names))
    .sort((a, b) => order(a.name) - order(b.name) || (a.name < b.name ? -1 : 1));
  return archive(changed, date);
}

/** Readers that look at the first part expect the list of types there. */
function order(name: string): number {
  return name === '[Content_Types].xml' ? 0 : 1;
}
