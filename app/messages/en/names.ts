export { jointName } from '@/lib/findings/names';

import { OTHER_CROP } from '@/lib/vocabulary/crops';
import { group as groupOf } from '@/lib/vocabulary/groups';
import { species as speciesOf } from '@/lib/vocabulary/species';
import type { Eppo, Group } from '@/lib/vocabulary/terms';

/** `kochia`, or with its scientific name `kochia (Bassia scoparia)`; a code that is not in the list stays itself. */
export function weedName(eppo: Eppo, { latin = false } = {}): string {
  const weed = speciesOf(eppo);
  if (!weed) return eppo;
  return latin ? `${weed.commonName} (${weed.scientificName})` : weed.commonName;
}

/** A crop as a release names it. */
export function cropName(crop: string): string {
  return crop === OTHER_CROP ? 'other crop, or none stated' : crop;
}

/** `group 9`, what it acts on, and both together as a list shows them. */
export function herbicideName(number: Group): { short: string; action: string | null; long: string } {
  const action = groupOf(number)?.name ?? null;
  const short = `group ${number}`;
  return { short, action, long: action ? `${number} (${action})` : String(number) };
}
