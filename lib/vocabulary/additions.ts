import { z } from 'zod';
import { group } from './groups';
import { activeNamed, addActive, groupOfActive } from './herbicide-index';
import { species } from './species';
import { addSpecies, addSpeciesWord, lookUpName } from './species-index';

const NAMES = z.array(z.string().trim().min(2)).default([]);

const ADDITIONS = z.object({
  /** Where the words were seen; every one of them has a source. */
  source: z.string().trim().min(3, 'say where the words were seen'),
  /** Weeds that the list does not hold. */
  species: z
    .array(
      z.object({
        eppo: z.string().regex(/^[A-Z]{5}$/, 'an EPPO code has five capital letters'),
        scientificName: z.string().regex(/^[A-Z][a-z]+ [a-z-]+/, 'genus and epithet, as Amaranthus palmeri'),
        commonName: z.string().trim().min(2),
        otherNames: NAMES,
        synonyms: NAMES,
        plantType: z.enum(['broadleaf', 'grass']),
        dioecious: z.boolean().default(false),
        neverSusceptibleTo: z.array(z.number().int().min(0)).default([]),
      }),
    )
    .default([]),
  /** Further words for weeds of the list. */
  words: z.array(z.object({ word: z.string().trim().min(2), eppo: z.string() })).default([]),
  /** Actives by ISO common name, and the number of their group. */
  actives: z
    .array(z.object({ name: z.string().trim().min(3), group: z.number().int().min(0), otherNames: NAMES }))
    .default([]),
});

/** Words that a programme adds to the vocabulary. */
export type Additions = z.infer<typeof ADDITIONS>;

/** Reads additions from JSON. @throws RangeError that names the entry and what it must be */
export function readAdditions(value: unknown): Additions {
  const read = ADDITIONS.safeParse(value);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new RangeError(`${issue!.path.join('.') || 'The file'}: ${issue!.message}.`);
}

/**
 * Makes words known to this process, for all who look a species or a herbicide up from then on. The same again changes
 * nothing.
 *
 * @throws RangeError before anything is added, where a word means something else already
 */
export function addToVocabulary(additions: Additions): void {
  for (const entry of additions.species) refuseKnownSpecies(entry);
  for (const { word, eppo } of additions.words) refuseWord(word, eppo, additions);
  for (const { name, group: number } of additions.actives) refuseActive(name, number);

  const { source } = additions;
  for (const entry of additions.species) {
    if (species(entry.eppo)) continue;
    addSpecies({
      ...entry,
      authority: '',
      regionalNames: [],
      otherCodes: [],
      usuallyScreened: [],
      seen: [source],
    });
  }
  for (const { word, eppo } of additions.words) addSpeciesWord(word, eppo);
  for (const { name, group: number, otherNames } of additions.actives) {
    if (!activeNamed(name)) addActive(number, { name, family: 'other', otherNames, sources: [source] });
  }
}

function refuseKnownSpecies({ eppo, scientificName }: Additions['species'][number]): void {
  const known = species(eppo);
  if (known && known.scientificName !== scientificName) {
    throw new RangeError(`${eppo} is ${known.scientificName} already, not ${scientificName}.`);
  }
}

function refuseWord(word: string, eppo: string, { species: added }: Additions): void {
  if (!species(eppo) && !added.some((entry) => entry.eppo === eppo)) {
    throw new RangeError(`“${word}”: there is no species ${eppo}.`);
  }
  const known = lookUpName(word);
  if (!known || known.notes.includes('SPELLING')) return;
  if (known.ask)
    throw new RangeError(`“${word}” may mean ${known.species.join(' or ')}: explain it for each laboratory.`);
  if (known.species[0] !== eppo)
    throw new RangeError(`“${word}” means ${known.species[0]} already, not ${eppo}.`);
}

function refuseActive(name: string, number: number): void {
  if (!group(number)) throw new RangeError(`${name}: there is no group ${number}.`);
  const known = activeNamed(name);
  if (known && groupOfActive(known) !== number) {
    throw new RangeError(`${name} is of group ${groupOfActive(known)} already, not ${number}.`);
  }
}
