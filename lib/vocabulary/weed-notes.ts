import type { Eppo } from './terms';
import data from './weed-notes.json';

/** What a note is about: how to tell the weed, what it is taken for, which plants bear seed, when it comes up. */
export const WEED_NOTE_KINDS = ['tell', 'alike', 'sexes', 'emergence'] as const;
export type WeedNoteKind = (typeof WEED_NOTE_KINDS)[number];

/** A note in both languages of the public pages. `source`: where it was seen; parts of it, or all, may be `memory`. */
export interface WeedNote {
  kind: WeedNoteKind;
  en: string;
  es: string;
  source: string;
}

const BY_WEED = new Map(data.weeds.map(({ eppo, notes }) => [eppo, notes as WeedNote[]]));

/** The notes on a weed, in the order of `WEED_NOTE_KINDS`; empty where there are none. */
export function weedNotes(eppo: Eppo): readonly WeedNote[] {
  return BY_WEED.get(eppo) ?? [];
}
