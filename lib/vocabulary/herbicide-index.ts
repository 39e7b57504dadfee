import { editDistance } from './edit-distance';
import { type Active, allGroups, group } from './groups';
import { normalText, squeezed } from './normal-text';
import data from './site-of-action.json';
import type { Group } from './terms';

/** Salt and ester words (from memory), and words of formulation and timing that say nothing of the active. */
const SALTS =
  /[\s-]*\b(ammonium|sodium|potassium|isopropylamine|ipa|dimethylamine|dma|diglycolamine|dga|choline|esters?|amine|2-?ethylhexyl|ethylhexyl|butyl|methyl|ethyl|meptyl|propargyl|benzyl|pentyl|acetate|olamine|k|salts?|safened|acid|herbicides?|technical|formulated)\b/g;

/** The names of actives, terms, letters and numbers, ready for looking up. */

/** Active → group. */
const GROUP_OF = new Map<string, Group>();
/** Squeezed name, other name or name without salt and ester words → actives. */
const ACTIVES = new Map<string, string>();
const TERMS = new Map<string, Group[]>();
const LETTERS = new Map<string, Group[]>();
const RETIRED = new Map<number, Group>();
const OTHER_AGENTS = new Set(Object.values(data.notHerbicides).flat().map(squeezed));
const FORMER = new Map<string, readonly (number | string)[]>();
const UNSURE_LETTERS = new Map(data.askLetters.map(({ letter, groups }) => [letter, groups]));
const UNSURE_TERMS = new Set(data.askTerms.map(({ term }) => termKey(term)));

for (const { number, letters, retiredNumbers, terms, actives } of allGroups()) {
  for (const letter of letters) LETTERS.set(letter, [number]);
  for (const retired of retiredNumbers) RETIRED.set(retired, number);
  for (const term of terms) addTerm(term, number);
  for (const { name, family, otherNames = [], formerly = [] } of actives) {
    FORMER.set(name, formerly);
    GROUP_OF.set(name, number);
    ACTIVES.set(squeezed(name), name);
    for (const other of otherNames) ACTIVES.set(squeezed(other), name);
    if (family !== 'other') addTerm(family.replace(/ \(.*\)$/, ''), number);
  }
}
for (const name of GROUP_OF.keys()) {
  const stem = squeezed(withoutSalt(name));
  if (!ACTIVES.has(stem)) ACTIVES.set(stem, name);
}
for (const { term, groups } of data.askTerms) TERMS.set(termKey(term), groups);
for (const { letter, groups, twoSystems } of data.askLetters) if (!twoSystems) LETTERS.set(letter, groups);

/** Adds an active of a programme's own to a group of the list. */
export function addActive(number: Group, active: Active): void {
  group(number)!.actives.push(active);
  FORMER.set(active.name, []);
  GROUP_OF.set(active.name, number);
  for (const name of [active.name, ...(active.otherNames ?? [])]) ACTIVES.set(squeezed(name), active.name);
}

/** The active of a name, with salt and ester words or without; null when no name is spelled so. */
export function activeNamed(text: string): string | null {
  return ACTIVES.get(squeezed(text)) ?? ACTIVES.get(squeezed(withoutSalt(text))) ?? null;
}

/**
 * The one active whose name is within two edits, or of several in one group the nearest; names of fewer than seven
 * letters do not count.
 */
export function activeSpelledLike(text: string): string | null {
  const wanted = [...new Set([squeezed(text), squeezed(withoutSalt(text))])].filter(
    ({ length }) => length >= 7,
  );
  const near = new Map<string, number>();
  for (const [name, active] of ACTIVES) {
    if (name.length < 7) continue;
    const distance = Math.min(...wanted.map((one) => editDistance(one, name, 2)));
    if (distance <= 2) near.set(active, Math.min(distance, near.get(active) ?? 2));
  }
  const least = Math.min(...near.values());
  const nearest = [...near.keys()].filter((active) => near.get(active) === least);
  const groups = new Set([...near.keys()].map(groupOfActive));
  return nearest.length === 1 && groups.size === 1 ? nearest[0]! : null;
}

export function groupOfActive(active: string): Group {
  return GROUP_OF.get(active)!;
}

/** Numbers and letters under which an active once ran besides those of its group. */
export function formerMarks(active: string): readonly (number | string)[] {
  return FORMER.get(active) ?? [];
}

/** The groups of a site-of-action name, family or class word: none, one, or several that the word does not tell apart. */
export function groupsOfTerm(text: string): readonly Group[] {
  return TERMS.get(termKey(text)) ?? [];
}

/** Whether a class word is never enough by itself. */
export function isUnsureTerm(text: string): boolean {
  return UNSURE_TERMS.has(termKey(text));
}

/** The groups of a letter of the old classification: one, or several where the letter was divided. */
export function groupsOfLetter(letter: string): readonly Group[] {
  return LETTERS.get(letter.toUpperCase()) ?? [];
}

/** All that a bare letter may mean where two national systems differ on it, or it was divided; else null. */
export function readingsOfLetter(letter: string): readonly Group[] | null {
  return UNSURE_LETTERS.get(letter.toUpperCase()) ?? null;
}

export function groupOfRetiredNumber(number: number): Group | null {
  return RETIRED.get(number) ?? null;
}

/** Adjuvants, safeners, insecticides and fungicides. */
export function isOtherAgent(text: string): boolean {
  return OTHER_AGENTS.has(squeezed(text).replace(/s$/, '')) || OTHER_AGENTS.has(squeezed(text));
}

/** Whether nothing is left of a text without its salt, ester and formulation words. */
export function isSaltOnly(text: string): boolean {
  return squeezed(withoutSalt(text)) === '';
}

function withoutSalt(text: string): string {
  return normalText(text)
    .replace(SALTS, ' ')
    .replace(/-p\b/g, '')
    .replace(/^[\s-]+|[\s-]+$/g, '');
}

function addTerm(term: string, group: Group): void {
  const key = termKey(term);
  const groups = TERMS.get(key) ?? [];
  if (!groups.includes(group)) TERMS.set(key, [...groups, group]);
}

function termKey(term: string): string {
  return normalText(term)
    .replace(/\b(inhibit(ors?|ing|ion)|of|the|herbicides?|site|mode|action)\b/g, ' ')
    .replace(/[^a-z0-9]/g, '')
    .replace(/(?<=...)s$/, '');
}
