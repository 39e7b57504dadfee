import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { type Grain, type View, windowKey } from './view';

export type Parameters = Record<string, string | string[] | undefined>;

/** A parameter that could not be followed, with what was asked for. */
export interface Misfit {
  parameter: keyof View;
  asked: string;
}

/**
 * The view that an address asks for. What is missing gets its default; what this release does not have is replaced by
 * the default too and named in `misfits`.
 */
export function parseView(
  parameters: Parameters,
  head: ReleaseHead,
  region: Region,
): { view: View; misfits: Misfit[] } {
  const misfits: Misfit[] = [];
  const pick = <T>(
    parameter: keyof View,
    choices: readonly T[],
    keyOf: (choice: T) => string,
    fallback: T,
  ): T => {
    const given = parameters[parameter];
    const asked = Array.isArray(given) ? given[0] : given;
    if (asked === undefined || asked === '') return fallback;
    const found = choices.find((choice) => keyOf(choice) === asked);
    if (found === undefined) misfits.push({ parameter, asked });
    return found ?? fallback;
  };
  const allSpecies = [...new Set(head.pairs.map((pair) => pair.species))];
  const species = pick('species', allSpecies, String, head.leading?.species ?? allSpecies[0]!);
  const groups = head.pairs.filter((pair) => pair.species === species).map((pair) => pair.group);
  const leading = head.leading?.species === species ? head.leading.group : groups[0]!;
  const windows = [...head.windows, 'all' as const];
  const view: View = {
    species,
    group: pick('group', groups, String, leading),
    window: pick('window', windows, windowKey, head.windows.at(-1) ?? 'all'),
    by: pick<Grain>(
      'by',
      region.districts.length > 0 ? ['county', 'district'] : ['county'],
      String,
      'county',
    ),
    place: pick('place', placeKeys(region), String, 'region'),
  };
  return { view, misfits };
}

function placeKeys(region: Region): string[] {
  return [
    'region',
    ...region.states.map(({ code }) => code),
    ...region.districts.map(({ code }) => code),
    ...region.counties.map(({ fips }) => fips),
  ];
}
