import { findingName } from '@/lib/findings/finding-name';
import type { Finding } from '@/lib/findings/types';
import type { Pair } from '@/lib/vocabulary/terms';

/** A finding that only one of two releases has, or that says something else. */
export interface FindingDifference extends Pair {
  name: string;
  /** Sentences; null where that release has no such finding. */
  before: string | null;
  after: string | null;
}

/** How the findings of a release differ from those of the one before: what is new or says something else, then what is gone. */
export function findingChanges(before: readonly Finding[], after: readonly Finding[]): FindingDifference[] {
  const earlier = new Map(before.map((finding) => [findingName(finding), finding]));
  const later = new Map(after.map((finding) => [findingName(finding), finding]));
  return [...new Set([...later.keys(), ...earlier.keys()])].flatMap((name): FindingDifference[] => {
    const [was, is] = [earlier.get(name), later.get(name)];
    if (was?.sentence === is?.sentence) return [];
    const { species, group } = (is ?? was)!;
    return [{ species, group, name, before: was?.sentence ?? null, after: is?.sentence ?? null }];
  });
}
