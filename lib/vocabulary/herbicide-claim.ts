import { group } from './groups';
import {
  activeNamed,
  activeSpelledLike,
  groupOfActive,
  groupOfRetiredNumber,
  groupsOfLetter,
  groupsOfTerm,
  isOtherAgent,
  isSaltOnly,
  isUnsureTerm,
  readingsOfLetter,
} from './herbicide-index';
import { normalText } from './normal-text';
import type { Group } from './terms';

/** How a herbicide was written, where that differs from the group's number and an active's ISO common name. */
export type HerbicideNote =
  | 'NUMBER_FORMAT'
  | 'RETIRED_NUMBER'
  | 'LEGACY_LETTER'
  | 'SOA_NAME'
  | 'ACTIVE_SPELLING'
  | 'MIXTURE_ONE_GROUP'
  | 'ADDITIVE_IGNORED';

/** What one piece of the cell says. */
export interface Claim {
  kind: 'number' | 'letter' | 'term' | 'active' | 'additive' | 'salt';
  /** The groups it allows; none for a number that does not exist. */
  groups: readonly Group[];
  active: string | null;
  /** The number or letter as written. */
  mark: number | string | null;
  /** All that it may mean where it is never enough by itself, else null. */
  readings: readonly Group[] | null;
  notes: HerbicideNote[];
}

/** What a piece of text says of the herbicide, as one claim or, for "9 glyphosate", two; none when it says nothing known. */
export function readClaims(text: string): Claim[] {
  const one = readClaim(text);
  if (one) return [one];
  const split = /^(.*?)[\s:]+((?:\S+\s+)?\S+)$/.exec(text.trim());
  const ends = [split, /^((?:\S+\s+)?\S+?)[\s:]+(.*)$/.exec(text.trim()), /^(\S+)\s+(.*)$/.exec(text.trim())];
  for (const end of ends) {
    const claims = end ? [readClaim(end[1]!), readClaim(end[2]!)] : [];
    if (claims.length === 2 && claims.every((claim) => claim !== null)) return claims as Claim[];
  }
  const spelled = activeSpelledLike(text);
  return spelled ? [ofActive(spelled, ['ACTIVE_SPELLING'])] : [];
}

function readClaim(text: string): Claim | null {
  const plain = normalText(text);
  if (plain === '') return null;
  const active = activeNamed(text);
  if (active) return ofActive(active, []);
  const marked = letterClaim(plain) ?? numberClaim(plain);
  if (marked) return marked;
  const terms = groupsOfTerm(plain);
  const readings = isUnsureTerm(plain) ? terms : null;
  if (terms.length > 0) return claim('term', terms, { readings, notes: ['SOA_NAME'] });
  if (isOtherAgent(plain)) return claim('additive', [], {});
  return isSaltOnly(plain) ? claim('salt', [], {}) : null;
}

const PREFIX = String.raw`(?:(?:wssa|hrac|group|grp|gr|soa|moa|no|class|#)\.?\s*)*`;

function letterClaim(plain: string): Claim | null {
  const letter = new RegExp(`^${PREFIX}([a-z][1-4]?)$`).exec(plain)?.[1];
  const groups = letter === undefined ? [] : groupsOfLetter(letter);
  if (letter === undefined || groups.length === 0) return null;
  const mark = letter.toUpperCase();
  return claim('letter', groups, { mark, readings: readingsOfLetter(letter), notes: ['LEGACY_LETTER'] });
}

function numberClaim(plain: string): Claim | null {
  const parts = new RegExp(String.raw`^${PREFIX}g?\.?\s*(\d{1,4})(\.0+)?$`).exec(plain);
  if (!parts) return null;
  const mark = Number(parts[1]);
  const retired = groupOfRetiredNumber(mark);
  if (retired !== null) return claim('number', [retired], { mark, notes: ['RETIRED_NUMBER'] });
  return claim('number', group(mark) ? [mark] : [], { mark, notes: parts[2] ? ['NUMBER_FORMAT'] : [] });
}

function ofActive(active: string, notes: HerbicideNote[]): Claim {
  return claim('active', [groupOfActive(active)], { active, notes });
}

function claim(kind: Claim['kind'], groups: readonly Group[], rest: Partial<Claim>): Claim {
  return { kind, groups, active: null, mark: null, readings: null, notes: [], ...rest };
}
