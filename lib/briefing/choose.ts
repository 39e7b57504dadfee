import { list } from '@/lib/findings/wording';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { type Eppo, type Group, type Period, periodKey } from '@/lib/vocabulary/terms';

/** What a briefing is about. Districts: none is the whole region. */
export interface BriefingChoice {
  species: Eppo;
  groups: Group[];
  window: Period;
  districts: string[];
}

/** As it is asked for; several groups or districts stand each by itself or parted by commas. */
export interface BriefingWish {
  species?: string | undefined;
  groups: readonly string[];
  window?: string | undefined;
  districts: readonly string[];
}

/** Most groups that two pages hold. */
export const MOST_GROUPS = 2;

/** The wish of an address: `species`, `group`, `window`, `district`. */
export function wishOf(parameters: URLSearchParams): BriefingWish {
  return {
    species: parameters.get('species') ?? undefined,
    groups: parameters.getAll('group'),
    window: parameters.get('window') ?? undefined,
    districts: parameters.getAll('district'),
  };
}

/**
 * The choice that a wish means. What is missing gets its default: the leading weed, its leading group, the newest window, the
 * whole region.
 *
 * @returns what is wrong with it, in words, where the release or region does not have what is asked for
 */
export function parseBriefing(
  { species: weed, groups: wishedGroups, window: run, districts: wishedDistricts }: BriefingWish,
  { pairs, leading, windows }: Pick<ReleaseHead, 'pairs' | 'leading' | 'windows'>,
  region: Pick<Region, 'districts'>,
): BriefingChoice | { problem: string } {
  const allSpecies = [...new Set(pairs.map(({ species }) => species))];
  const species = weed ?? leading?.species ?? allSpecies[0];
  if (species === undefined || !allSpecies.includes(species))
    return problem('weed', String(species ?? ''), allSpecies);
  const known = pairs.filter((pair) => pair.species === species).map(({ group }) => group);
  const asked = split(wishedGroups);
  const stray = asked.find((group) => !known.map(String).includes(group));
  if (stray !== undefined) return problem(`herbicide group of ${species}`, stray, known.map(String));
  const first = leading?.species === species ? leading.group : known[0]!;
  const groups = asked.length === 0 ? [first] : known.filter((group) => asked.includes(String(group)));
  if (groups.length > MOST_GROUPS)
    return {
      problem: `A briefing holds at most ${MOST_GROUPS} herbicide groups; ${groups.length} are asked for.`,
    };
  const window = run === undefined ? windows.at(-1) : windows.find((one) => periodKey(one) === run);
  if (!window) return problem('run of seasons', run ?? '', windows.map(periodKey));
  const codes = region.districts.map(({ code }) => code);
  const districts = split(wishedDistricts);
  const lost = districts.find((code) => !codes.includes(code));
  if (lost !== undefined) return problem('district', lost, codes);
  return { species, groups, window, districts: codes.filter((code) => districts.includes(code)) };
}

/** `Kansas centre and Kansas north-west`: the chosen districts, or the region where there are none. */
export function wholeNameOf(
  { districts }: BriefingChoice,
  region: Pick<Region, 'name' | 'districts'>,
): string {
  const names = districts.map((code) => region.districts.find((one) => one.code === code)!.name);
  return names.length === 0 ? region.name : list(names, names.length).replaceAll('; ', ', ');
}

/** The address of a briefing: the same for the same choice, however it was asked for. */
export function briefingQuery({ species, groups, window, districts }: BriefingChoice): string {
  const parameters = new URLSearchParams({ species });
  for (const group of groups) parameters.append('group', String(group));
  parameters.set('window', periodKey(window));
  for (const district of districts) parameters.append('district', district);
  return String(parameters);
}

function split(words: readonly string[]): string[] {
  return [...new Set(words.flatMap((one) => one.split(',')).map((one) => one.trim()))].filter(
    (one) => one !== '',
  );
}

function problem(what: string, asked: string, there: readonly string[]): { problem: string } {
  const given = asked.length > 24 ? `${asked.slice(0, 24)}…` : asked;
  return { problem: `There is no ${what} “${given}”. There are: ${there.join(', ') || 'none'}.` };
}
