import { groupName } from '@/lib/vocabulary/groups';
import { type HerbicideAnswer, resolveHerbicide } from '@/lib/vocabulary/resolve-herbicide';
import type { Group } from '@/lib/vocabulary/terms';
import { asks, quoted, type Reading, read, refuses } from './reading';

export interface Herbicide {
  group: Group;
  /** ISO common names, sorted; empty where the sheet names the group alone. */
  actives: string[];
}

/** The site-of-action group of a row, and its actives. */
export function readHerbicide(text: string): Reading<Herbicide> {
  const answer = resolveHerbicide(text);
  if (answer.kind === 'resolved') {
    return read({ group: answer.group, actives: answer.actives }, ...answer.notes);
  }
  if (answer.kind === 'refused') {
    const blank = answer.code === 'GROUP_MISSING';
    const reason = blank ? 'Herbicide is blank.' : `${quoted(text)} is no herbicide.`;
    return refuses('herbicide', answer.code, reason, 'Name the active or its group and send the row again.');
  }
  const hints = { candidates: answer.candidates.map(String), memorable: answer.code !== 'GROUP_MIXTURE' };
  return asks('herbicide', answer.code, `${quoted(text)} ${REASON[answer.code]}.`, remedyOf(answer), hints);
}

type Question = HerbicideAnswer & { kind: 'question' };

const REASON: Readonly<Record<Question['code'], string>> = {
  GROUP_MIXTURE: 'names more than one group',
  GROUP_CONFLICT: 'names a herbicide and a group that is not its own',
  GROUP_AMBIGUOUS: 'may mean more than one group',
  GROUP_UNKNOWN: 'is no group and no active ingredient of the list (products are not read)',
};

function remedyOf({ code, candidates }: Question): string {
  if (code === 'GROUP_MIXTURE') return 'Which group does the survival describe, or are these two tests?';
  if (candidates.length === 0) return 'Which active ingredient was sprayed, by its ISO common name?';
  return `Which active was sprayed: is it ${candidates.map(groupName).join(' or ')}?`;
}
