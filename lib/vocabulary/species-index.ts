import { editDistance } from './edit-distance';
import { normalText, squeezed } from './normal-text';
import { allSpecies, registerSpecies, type Species } from './species';
import data from './species.json';
import type { Eppo } from './terms';

/** How a name differs from the accepted scientific name, the usual common name and the EPPO code. */
export type SpeciesNote =
  | 'COMMON_NAME'
  | 'SYNONYM'
  | 'ABBREVIATED'
  | 'OLD_CODE'
  | 'SPELLING'
  | 'REGIONAL_NAME';

/** What one name stands for: one species, or (`ask`) several or an unsure one. */
export interface NameEntry {
  species: Eppo[];
  notes: SpeciesNote[];
  ask: boolean;
}

const NAMES = new Map<string, NameEntry>();
const SQUEEZED = new Map<string, NameEntry>();
const GENERA = new Map<string, Eppo[]>();
const ABBREVIATED = new Map<string, Eppo[]>();
for (const entry of allSpecies()) addNamesOf(entry);
for (const { name, candidates } of data.ask)
  addName(name, { species: candidates, notes: [], ask: true }, true);

/** What a single name stands for, or null when it is none of the list's. */
export function lookUpName(text: string): NameEntry | null {
  return exactName(text) ?? withAuthority(text) ?? genusAlone(text) ?? abbreviated(text) ?? respelled(text);
}

/** Adds a species of a programme's own, with its names. */
export function addSpecies(entry: Species): void {
  registerSpecies(entry);
  addNamesOf(entry);
}

/** Adds a further word for a species. */
export function addSpeciesWord(word: string, eppo: Eppo): void {
  addName(word, { species: [eppo], notes: ['COMMON_NAME'], ask: false }, false);
}

function exactName(text: string): NameEntry | null {
  return NAMES.get(normalText(text).replace(/\b(ssp|subsp)\b\.?/, 'subsp.')) ?? null;
}

/** `Amaranthus tuberculatus (Moq.) Sauer`, and with any other author of one to three words. */
function withAuthority(text: string): NameEntry | null {
  const parts = /^([A-Z][a-z]+ [a-z-]+) ((?:\(?[A-Z][\w.]*\)?\s?(?:& |ex )?){1,4})$/.exec(text.trim());
  return parts ? exactName(parts[1]!) : null;
}

function genusAlone(text: string): NameEntry | null {
  const genus = /^([a-z]+)(?: (?:spp?|species))?$/.exec(normalText(text))?.[1];
  const candidates = genus === undefined ? undefined : GENERA.get(genus);
  return candidates ? { species: candidates, notes: [], ask: true } : null;
}

/** `A. tuberculatus`. */
function abbreviated(text: string): NameEntry | null {
  const parts = /^([a-z])\.? ([a-z-]+)$/.exec(normalText(text));
  const candidates = parts ? ABBREVIATED.get(`${parts[1]} ${parts[2]}`) : undefined;
  return candidates ? { species: candidates, notes: ['ABBREVIATED'], ask: candidates.length > 1 } : null;
}

/** The same letters, or a name nearby: within 2 edits from 7 letters on, 1 from 5 on; the first letter must stand. */
function respelled(text: string): NameEntry | null {
  const wanted = squeezed(text);
  const same = SQUEEZED.get(wanted);
  if (same) return spelled(same);
  if (/^[A-Z]{5}$/.test(text.trim()) || wanted.length < 5) return null;
  let limit = wanted.length < 7 ? 1 : 2;
  let found: NameEntry[] = [];
  for (const [name, entry] of SQUEEZED) {
    if (name[0] !== wanted[0] || name.length < 5) continue;
    const distance = editDistance(wanted, name, limit);
    if (distance > limit) continue;
    if (distance < limit) found = [];
    limit = distance;
    found.push(entry);
  }
  if (found.length === 0) return null;
  const species = [...new Set(found.flatMap((entry) => entry.species))];
  return { species, notes: ['SPELLING'], ask: species.length !== 1 || found.some((entry) => entry.ask) };
}

function spelled(entry: NameEntry): NameEntry {
  return entry.ask ? entry : { ...entry, notes: ['SPELLING'] };
}

function addNamesOf(s: Species): void {
  const add = (names: readonly string[], ...notes: SpeciesNote[]) => {
    for (const name of names) addName(name, { species: [s.eppo], notes, ask: false }, false);
  };
  const regional = s.regionalNames.includes(s.commonName) ? (['REGIONAL_NAME'] as const) : [];
  add([s.eppo, s.scientificName]);
  add([s.commonName], ...regional);
  add(s.regionalNames, 'COMMON_NAME', 'REGIONAL_NAME');
  add(s.otherNames, 'COMMON_NAME');
  add(s.synonyms, 'SYNONYM');
  add(s.otherCodes, 'OLD_CODE');
  for (const name of [s.scientificName, ...s.synonyms]) {
    const [genus, epithet] = normalText(name).split(' ');
    addTo(GENERA, genus!, s.eppo);
    addTo(ABBREVIATED, `${genus![0]} ${epithet}`, s.eppo);
  }
}

function addName(name: string, entry: NameEntry, replace: boolean): void {
  const key = normalText(name);
  if (replace || !NAMES.has(key)) NAMES.set(key, entry);
  if (replace || !SQUEEZED.has(squeezed(name))) SQUEEZED.set(squeezed(name), entry);
}

function addTo(index: Map<string, Eppo[]>, key: string, eppo: Eppo): void {
  const list = index.get(key) ?? [];
  if (!list.includes(eppo)) index.set(key, [...list, eppo]);
}
