import { normalText, saysNothing } from './normal-text';
import { lookUpName, type NameEntry, type SpeciesNote } from './species-index';
import type { Eppo } from './terms';

export type { SpeciesNote } from './species-index';

export type SpeciesAnswer =
  | { kind: 'resolved'; eppo: Eppo; notes: SpeciesNote[] }
  /** A person must decide; `candidates` may be empty. */
  | {
      kind: 'question';
      code: 'SPECIES_AMBIGUOUS' | 'SPECIES_MIXED' | 'SPECIES_UNKNOWN';
      candidates: Eppo[];
    }
  | { kind: 'refused'; code: 'SPECIES_MISSING' };

/**
 * The species that a cell names: EPPO code (older ones too), scientific name with or without author, synonym,
 * abbreviated genus, common name as used in North America, or one of these misspelled. Several names of one plant are
 * one plant; names of several plants, genus names and words that mean several plants are questions.
 */
export function resolveSpecies(text: string): SpeciesAnswer {
  if (saysNothing(text)) return { kind: 'refused', code: 'SPECIES_MISSING' };
  const doubt = /\?|\bx\b|×|\bhybrids?\b|\bvolunteer\b/i.test(text);
  const whole = doubt ? null : lookUpName(text);
  if (whole) return answer(whole);

  const parts = partsOf(text);
  const entries = parts.map(lookUpName);
  const known = entries.filter((entry) => entry !== null);
  const species = [...new Set(known.flatMap((entry) => entry.species))];
  if (known.length === 0) return { kind: 'question', code: 'SPECIES_UNKNOWN', candidates: [] };
  if (/\bvolunteer\b/i.test(text)) return { kind: 'question', code: 'SPECIES_UNKNOWN', candidates: species };
  if (doubt) return { kind: 'question', code: 'SPECIES_AMBIGUOUS', candidates: species };

  const turned = parts.length === 2 ? lookUpName(`${parts[1]} ${parts[0]}`) : null;
  if (known.length < parts.length) {
    return turned ? answer(turned) : { kind: 'question', code: 'SPECIES_UNKNOWN', candidates: species };
  }
  return together(known, / and | with |[+&]/.test(normalText(text)), turned);
}

/** Pieces that may be names; the second one in brackets may hold an author's brackets. */
function partsOf(text: string): string[] {
  const [, outer, inner] = /^([^()]+)\((.+)\)\s*$/.exec(text) ?? [];
  if (outer !== undefined && inner !== undefined && lookUpName(inner)) return [outer, inner];
  return text.split(SEPARATORS).filter((part) => part.trim() !== '');
}

const SEPARATORS = /[()[\]/,;+&=?×]|\s-\s|\s(?:and|with|or|x)\s|\bhybrids?\b|\bvolunteer\b/i;

function answer({ species, notes, ask }: NameEntry): SpeciesAnswer {
  if (ask || species.length !== 1) {
    return { kind: 'question', code: 'SPECIES_AMBIGUOUS', candidates: species };
  }
  return { kind: 'resolved', eppo: species[0]!, notes };
}

/** Several names in one cell: a wide name beside a narrow one is settled by the narrow one, unless both are in the bag. */
function together(entries: readonly NameEntry[], mixed: boolean, turned: NameEntry | null): SpeciesAnswer {
  const sure = [...new Set(entries.filter((entry) => !entry.ask).flatMap((entry) => entry.species))];
  const all = [...new Set(entries.flatMap((entry) => entry.species))];
  const unsure = entries.filter((entry) => entry.ask);
  if (sure.length === 0) {
    return turned ? answer(turned) : { kind: 'question', code: 'SPECIES_AMBIGUOUS', candidates: all };
  }
  const covered = unsure.every((entry) => entry.species.includes(sure[0]!));
  if (sure.length === 1 && covered && !(mixed && unsure.length > 0)) {
    const notes = entries.flatMap((entry) => entry.notes).filter((note) => note !== 'REGIONAL_NAME');
    return { kind: 'resolved', eppo: sure[0]!, notes: [...new Set<SpeciesNote>(['COMMON_NAME', ...notes])] };
  }
  return { kind: 'question', code: 'SPECIES_MIXED', candidates: all };
}
