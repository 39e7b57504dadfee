import { resolveSpecies, type SpeciesAnswer } from '@/lib/vocabulary/resolve-species';
import { species } from '@/lib/vocabulary/species';
import type { Eppo } from '@/lib/vocabulary/terms';
import { asks, quoted, type Reading, read, refuses } from './reading';

/** The species of a row. */
export function readWeed(text: string): Reading<Eppo> {
  const answer = resolveSpecies(text);
  if (answer.kind === 'resolved') return read(answer.eppo, ...answer.notes);
  if (answer.kind === 'refused') {
    return refuses('weed', answer.code, 'Weed is blank.', 'Name the weed and send the row again.');
  }
  // Scientific names, not codes: a code of one plant may be written for a whole genus, and is then asked about itself.
  const candidates = answer.candidates.map((eppo) => species(eppo)?.scientificName ?? eppo);
  const hints = { candidates, memorable: answer.code !== 'SPECIES_MIXED' };
  return asks('weed', answer.code, reasonOf(answer.code, text), remedyOf(answer), hints);
}

type Question = SpeciesAnswer & { kind: 'question' };

function reasonOf(code: Question['code'], text: string): string {
  if (code === 'SPECIES_MIXED') return `${quoted(text)} names two plants in one bag.`;
  if (code === 'SPECIES_AMBIGUOUS') return `${quoted(text)} does not name one species for certain.`;
  return `${quoted(text)} is not in the list of weeds.`;
}

function remedyOf({ code, candidates }: Question): string {
  if (code === 'SPECIES_MIXED') return 'Were the plants told apart and counted separately?';
  const names = candidates.map((eppo) => `${species(eppo)?.commonName} (${eppo})`);
  if (names.length === 0) return 'Which species is it, by its scientific name or EPPO code?';
  return `Is it ${names.join(', ')}${names.length === 1 ? ', and nothing else' : ' or another'}?`;
}
