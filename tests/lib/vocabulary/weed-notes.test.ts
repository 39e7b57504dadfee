import { describe, expect, it } from 'vitest';
import { species } from '@/lib/vocabulary/species';
import { WEED_NOTE_KINDS, weedNotes } from '@/lib/vocabulary/weed-notes';
import data from '@/lib/vocabulary/weed-notes.json';

describe('the notes on a weed', () => {
  it('are of a weed of the list, one of each kind, in both languages, with a source each', () => {
    for (const { eppo } of data.weeds) {
      expect(species(eppo), eppo).not.toBeNull();
      const notes = weedNotes(eppo);
      expect(notes.map(({ kind }) => kind)).toEqual(WEED_NOTE_KINDS);
      for (const { en, es, source } of notes) {
        expect(en).toMatch(/^[A-Z].*\.$/);
        expect(es).toMatch(/^[A-ZÁÉÍÓÚ].*\.$/);
        expect(es).not.toBe(en);
        expect(source).toMatch(/\p{L}{3}/u);
      }
    }
  });

  it('say of weeds with separate sexes, and of no other, that only female plants bear seed', () => {
    for (const { eppo } of data.weeds) {
      const { en, es } = weedNotes(eppo).find(({ kind }) => kind === 'sexes')!;
      const dioecious = species(eppo)!.dioecious === true;
      expect(/only female plants bear seed/.test(en), eppo).toBe(dioecious);
      expect(/solo las hembra dan semilla/.test(es), eppo).toBe(dioecious);
    }
  });

  it('are none for a weed that nobody wrote about', () => {
    expect(weedNotes('ZZZZZ')).toEqual([]);
  });
});
