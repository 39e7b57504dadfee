import data from './site-of-action.json';
import type { Group } from './terms';

/** An active ingredient by its ISO common name. `sources` says where its link to the group was seen; M = memory. */
export interface Active {
  name: string;
  family: string;
  otherNames?: string[];
  /** Numbers and letters under which it once ran besides those of its group. */
  formerly?: (number | string)[];
  sources: string[];
}

/** A herbicide site-of-action group by its harmonised number. */
export interface SiteOfAction {
  number: Group;
  /** As it reads in a label: `inhibition of EPSP synthase`. */
  name: string;
  terms: string[];
  /** Letters of the classification that the numbers replaced. */
  letters: string[];
  retiredNumbers: number[];
  sources: string[];
  actives: Active[];
}

const GROUPS = data.groups as SiteOfAction[];
const BY_NUMBER = new Map(GROUPS.map((entry) => [entry.number, entry]));

/** The group of a number in use, or null. */
export function group(number: Group): SiteOfAction | null {
  return BY_NUMBER.get(number) ?? null;
}

/** All groups, ascending by number, the unknown sites of action (0) last. */
export function allGroups(): readonly SiteOfAction[] {
  return GROUPS;
}

/** `group 9 (inhibition of EPSP synthase)`; a number that is not in use stays bare. */
export function groupName(number: Group): string {
  const name = BY_NUMBER.get(number)?.name;
  return name === undefined ? `group ${number}` : `group ${number} (${name})`;
}
