import { type Claim, type HerbicideNote, readClaims } from './herbicide-claim';
import { formerMarks } from './herbicide-index';
import { saysNothing } from './normal-text';
import type { Group } from './terms';

export type { HerbicideNote } from './herbicide-claim';

export type HerbicideAnswer =
  /** `actives` are ISO common names, sorted; empty where the cell names the group alone. */
  | { kind: 'resolved'; group: Group; actives: string[]; notes: HerbicideNote[] }
  /** A person must decide; `candidates` may be empty. */
  | {
      kind: 'question';
      code: 'GROUP_MIXTURE' | 'GROUP_CONFLICT' | 'GROUP_AMBIGUOUS' | 'GROUP_UNKNOWN';
      candidates: Group[];
      actives: string[];
    }
  | { kind: 'refused'; code: 'GROUP_MISSING' | 'NOT_A_HERBICIDE' };

/**
 * The site-of-action group that a cell names, by number (a retired one too), letter of the old classification, name of
 * the site or family, or active (a misspelled one too), in any combination, with the actives beside it. Pieces that
 * contradict each other, mixtures over groups, words for several groups and unknown names (products among them) are
 * questions. What controls no weed is refused; beside a herbicide it is ignored with a note.
 */
export function resolveHerbicide(text: string): HerbicideAnswer {
  if (saysNothing(text)) return { kind: 'refused', code: 'GROUP_MISSING' };
  const pieces = splitPieces(text);
  const claims = pieces.map(readClaims);
  const said = claims.flat();
  const about = said.filter(({ kind }) => kind !== 'additive' && kind !== 'salt');
  if (about.length === 0 && said.some(({ kind }) => kind === 'additive')) {
    return { kind: 'refused', code: 'NOT_A_HERBICIDE' };
  }
  const actives = [...new Set(about.flatMap(({ active }) => active ?? []))].sort();
  const candidates = [...new Set(about.flatMap(({ groups }) => groups))];
  const ask = (code: (HerbicideAnswer & { kind: 'question' })['code'], among = candidates) =>
    ({ kind: 'question', code, candidates: among, actives }) as const;

  if (claims.some((list) => list.length === 0) || about.some(({ groups }) => groups.length === 0)) {
    return ask('GROUP_UNKNOWN');
  }
  const allowed = candidates.filter((one) => about.every((claim) => allows(claim, one, actives)));
  if (allowed.length === 0) return ask(isMixture(text, about) ? 'GROUP_MIXTURE' : 'GROUP_CONFLICT');
  const readings = about.every((claim) => claim.readings !== null) ? about[0]!.readings! : [];
  if (allowed.length > 1 || readings.length > 0) {
    return ask('GROUP_AMBIGUOUS', [...new Set([...allowed, ...readings])]);
  }
  return { kind: 'resolved', group: allowed[0]!, actives, notes: notesOf(said, actives) };
}

/** Pieces between brackets and separators; the comma of 2,4-D separates nothing. */
function splitPieces(text: string): string[] {
  return text
    .normalize('NFKC')
    .replace(/\b2\s*[,.]\s*4\s*-?\s*(db|dp|d)\b/gi, (_, end: string) => `2\u00b74-${end}`)
    .split(SEPARATORS)
    .map((piece) => piece.replace('\u00b7', ','))
    .filter((piece) => piece.trim() !== '');
}

const SEPARATORS = /[()[\],;+&=/]|\s[-–—]\s|\s(?:and|plus|with)\s/i;

function allows({ groups, mark }: Claim, group: Group, actives: readonly string[]): boolean {
  return (
    groups.includes(group) || (mark !== null && actives.some((active) => formerMarks(active).includes(mark)))
  );
}

/** Two actives of different groups, or two pieces side by side, are a mixture; a piece that explains another is not. */
function isMixture(text: string, about: readonly Claim[]): boolean {
  const groups = new Set(about.flatMap(({ active, groups }) => (active === null ? [] : groups)));
  if (groups.size > 1) return true;
  return !/[([]|\s[-–—]\s|=/.test(text) && /[,;+&/]|\s(?:and|plus|with)\s/i.test(text);
}

function notesOf(said: readonly Claim[], actives: readonly string[]): HerbicideNote[] {
  const notes = new Set(said.flatMap((claim) => claim.notes));
  if (actives.length > 0 || notes.has('LEGACY_LETTER')) notes.delete('SOA_NAME');
  if (actives.length > 1) notes.add('MIXTURE_ONE_GROUP');
  if (said.some(({ kind }) => kind === 'additive')) notes.add('ADDITIVE_IGNORED');
  return [...notes];
}
