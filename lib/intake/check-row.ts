import type { CheckKind } from './confirmation/judge-run';
import type { Cells } from './row-cells';

/** Which check a row is about, by its sample number: such a row is no population. */
export function checkOf({ sample }: Pick<Cells, 'sample'>): CheckKind | null {
  if (!MAYBE.test(sample)) return null;
  return KINDS.find(({ words }) => words.test(sample.trim()))?.kind ?? null;
}

/** Words without which a sample number names no check: spares the others the rest. */
const MAYBE = /check|control|standard|std|chk|untreated|utc/i;

const KINDS: readonly { kind: CheckKind; words: RegExp }[] = [
  { kind: 'untreated', words: /^(untreated|utc|nontreated|non-treated)( (check|control|plants))?\b/i },
  {
    kind: 'susceptible',
    words: /^(s|sus|susc|susceptible|sensitive)[\s-]*(check|chk|control|standard|std)\b/i,
  },
  { kind: 'resistant', words: /^(r|res|resistant)[\s-]*(check|chk|control|standard|std)\b/i },
];
