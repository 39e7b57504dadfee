import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { grainsOf, periodsOf } from './choices';
import { countySlug } from './county-slug';
import { type Grain, LAYERS, type Layer, type View, windowKey } from './view';

export type Parameters = Record<string, string | string[] | undefined>;

/** A parameter that could not be followed, with what was asked for. */
export interface Misfit {
  parameter: Exclude<keyof View, 'release'> | 'find';
  asked: string;
  /** Where what was asked for fits several places: their names. */
  several?: string[];
}

/**
 * The view that an address asks for. What is missing gets its default; what this release does not have is replaced by
 * the default too and named in `misfits`. `find` is a place in words: the name of a county, with or without its state.
 */
export function parseView(
  parameters: Parameters,
  head: ReleaseHead,
  region: Region,
): { view: View; misfits: Misfit[] } {
  const misfits: Misfit[] = [];
  const pick = <T>(
    parameter: Exclude<keyof View, 'release'>,
    choices: readonly T[],
    keyOf: (choice: T) => string,
    fallback: T,
  ): T => {
    const asked = first(parameters[parameter]);
    if (asked === undefined || asked === '') return fallback;
    const found = choices.find((choice) => keyOf(choice) === asked);
    if (found === undefined) misfits.push({ parameter, asked });
    return found ?? fallback;
  };
  const allSpecies = [...new Set(head.pairs.map((pair) => pair.species))];
  const species = pick('species', allSpecies, String, head.leading?.species ?? allSpecies[0]!);
  const groups = head.pairs.filter((pair) => pair.species === species).map((pair) => pair.group);
  const leading = head.leading?.species === species ? head.leading.group : groups[0]!;
  const group = pick('group', groups, String, leading);
  const by = pick<Grain>('by', grainsOf(region), String, 'county');
  const layers = region.districts.length > 0 ? LAYERS : LAYERS.filter((layer) => layer !== 'spread');
  const layer = pick<Layer>('layer', layers, String, LAYERS[0]);
  const { windows, seasons } = periodsOf(head, { species, group }, layer, by);
  const window = pick(
    'window',
    [...windows, ...seasons, 'all' as const],
    windowKey,
    head.windows.at(-1) ?? 'all',
  );
  const place = pick('place', placeKeys(region), String, 'region');
  const found = find(first(parameters.find) ?? '', region);
  if (found.misfit) misfits.push(found.misfit);
  return {
    view: { ...{ species, group, window, by, layer, release: head.number }, place: found.place ?? place },
    misfits,
  };
}

function first(given: string | string[] | undefined): string | undefined {
  return Array.isArray(given) ? given[0] : given;
}

function placeKeys(region: Region): string[] {
  return [
    'region',
    ...region.states.map(({ code }) => code),
    ...region.districts.map(({ code }) => code),
    ...region.counties.map(({ fips }) => fips),
  ];
}

/** The county that words name: as a whole (`Red Willow County, NE`, `red willow`), else by how its name begins. */
function find(asked: string, region: Region): { place?: string; misfit?: Misfit } {
  const wanted = countySlug({ fullName: asked, state: '' });
  if (wanted === '') return {};
  const named = region.counties.filter((county) => {
    const plain = countySlug({ fullName: county.fullName, state: '' });
    return (
      [plain, `${plain}-county`, countySlug(county)].includes(wanted) ||
      `${plain}-county-${county.state.toLowerCase()}` === wanted
    );
  });
  const matching =
    named.length > 0 ? named : region.counties.filter((county) => countySlug(county).startsWith(wanted));
  if (matching.length === 1) return { place: matching[0]!.fips };
  const several = matching.map(({ fullName, state }) => `${fullName}, ${state}`);
  return { misfit: { parameter: 'find', asked, ...(several.length > 0 ? { several } : {}) } };
}
