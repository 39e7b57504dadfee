import { groupName } from '@/lib/vocabulary/groups';
import { commonNameOf } from '@/lib/vocabulary/species';
import type { Pair } from '@/lib/vocabulary/terms';

/** `kochia × group 27`. */
export function pairWords({ species, group }: Pair): string {
  return `${commonNameOf(species)} × group ${group}`;
}

/** `kochia × group 27 (inhibition of HPPD)`. */
export function pairInFull({ species, group }: Pair): string {
  return `${commonNameOf(species)} × ${groupName(group)}`;
}

/** How a pair stands in an address: `KCHSC-27`. */
export function pairKey({ species, group }: Pair): string {
  return `${species}-${group}`;
}

/** The pair of a list that an address names, else the first. */
export function chosenPair<P extends Pair>(
  pairs: readonly P[],
  key: string | string[] | undefined,
): P | undefined {
  return pairs.find((pair) => pairKey(pair) === key) ?? pairs[0];
}
