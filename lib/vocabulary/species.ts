import data from './species.json';
import type { Eppo, Group } from './terms';

/** A weed of the list. `seen` says which fields were seen where; every other field is from memory. */
export interface Species {
  eppo: Eppo;
  scientificName: string;
  authority: string;
  commonName: string;
  otherNames: string[];
  /** Names that mean this plant in North America and another one elsewhere. */
  regionalNames: string[];
  synonyms: string[];
  /** Older and parallel codes met on sheets. */
  otherCodes: string[];
  plantType: 'broadleaf' | 'grass';
  /** True for a species with separate sexes: only female plants bear seed. */
  dioecious?: boolean;
  /** Groups that never controlled it: survival is tolerance, not resistance. */
  neverSusceptibleTo: Group[];
  usuallyScreened: Group[];
  seen: string[];
}

const SPECIES = data.species as Species[];
const BY_CODE = new Map(SPECIES.map((entry) => [entry.eppo, entry]));

/** The species of an EPPO code, or null where the list does not hold it. */
export function species(eppo: Eppo): Species | null {
  return BY_CODE.get(eppo) ?? null;
}

/** How sentences name a species: its common name, or its code where the list does not hold it. */
export function commonNameOf(eppo: Eppo): string {
  return species(eppo)?.commonName ?? eppo;
}

/** All species of the list, in its order. */
export function allSpecies(): readonly Species[] {
  return SPECIES;
}

/** Adds a species to the list of this process. */
export function registerSpecies(entry: Species): void {
  SPECIES.push(entry);
  BY_CODE.set(entry.eppo, entry);
}
