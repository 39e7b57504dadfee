export interface Licence {
  /** SPDX identifier. */
  id: string;
  title: string;
  url: string;
}

/** Licences for data that a programme can choose from, the freest first: those of the Open Definition that fit tables. */
export const LICENCES: readonly Licence[] = [
  {
    id: 'CC0-1.0',
    title: 'Creative Commons Zero 1.0',
    url: 'https://creativecommons.org/publicdomain/zero/1.0/',
  },
  {
    id: 'PDDL-1.0',
    title: 'Open Data Commons Public Domain Dedication and License 1.0',
    url: 'https://opendatacommons.org/licenses/pddl/1-0/',
  },
  {
    id: 'CC-BY-4.0',
    title: 'Creative Commons Attribution 4.0',
    url: 'https://creativecommons.org/licenses/by/4.0/',
  },
  {
    id: 'ODC-By-1.0',
    title: 'Open Data Commons Attribution License 1.0',
    url: 'https://opendatacommons.org/licenses/by/1-0/',
  },
  {
    id: 'CC-BY-SA-4.0',
    title: 'Creative Commons Attribution-ShareAlike 4.0',
    url: 'https://creativecommons.org/licenses/by-sa/4.0/',
  },
  {
    id: 'ODbL-1.0',
    title: 'Open Data Commons Open Database License 1.0',
    url: 'https://opendatacommons.org/licenses/odbl/1-0/',
  },
];

/** What every descriptor says where the programme chose none. */
export const NO_LICENCE = 'No licence is chosen by the programme: ask it before you reuse these data.';

/** The licence of an SPDX identifier, in whatever case it is written; null for one that is not on the list. */
export function licenceOf(id: string | null | undefined): Licence | null {
  return LICENCES.find((one) => one.id.toLowerCase() === id?.toLowerCase()) ?? null;
}
