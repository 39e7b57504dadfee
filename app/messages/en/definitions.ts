import type { ReleaseHead } from '@/lib/release/types';

/** The words of a case definition in this language; null where only the programme’s own words are known. */
export function definitionWords({ words }: ReleaseHead['caseDefinition']): string | null {
  return words;
}
