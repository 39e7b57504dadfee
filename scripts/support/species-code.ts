import { resolveSpecies } from '@/lib/vocabulary/resolve-species';
import { UsageError } from './command';

/** The EPPO code that a word means. @throws UsageError for a word that is no species, or could be several */
export function codeOf(word: string): string {
  const answer = resolveSpecies(word);
  if (answer.kind === 'resolved') return answer.eppo;
  throw new UsageError(`“${word}” is no species of the vocabulary, or could be several. Use its EPPO code.`);
}
