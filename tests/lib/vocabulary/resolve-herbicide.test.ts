import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allGroups, group, groupName } from '@/lib/vocabulary/groups';
import { resolveHerbicide } from '@/lib/vocabulary/resolve-herbicide';
import data from '@/lib/vocabulary/site-of-action.json';

const resolved = (text: string) => {
  const answer = resolveHerbicide(text);
  return answer.kind === 'resolved'
    ? [answer.group, answer.actives.join(), ...answer.notes]
    : [answer.kind, answer.code];
};

describe('the list', () => {
  it('names for each group and each active the source in which it was seen, or M for memory', () => {
    const sources = new Set(Object.keys(data.sources));
    for (const { sources: of, actives } of allGroups()) {
      for (const mark of [...of, ...actives.flatMap((active) => active.sources)]) {
        expect(sources.has(mark)).toBe(true);
      }
      expect(actives.every((active) => active.sources.length > 0)).toBe(true);
    }
    expect(group(9)!.actives[0]).toMatchObject({ name: 'glyphosate', sources: ['S3', 'S8'] });
    expect(group(10)!.actives.every(({ sources: marks }) => marks.join() === 'M')).toBe(true);
  });

  it('puts no active into two groups, and no retired number among those in use', () => {
    const names = allGroups().flatMap(({ actives }) => actives.map(({ name }) => name));
    expect(new Set(names).size).toBe(names.length);
    for (const { retiredNumbers } of allGroups()) {
      for (const number of retiredNumbers) expect(group(number)).toBeNull();
    }
  });

  it('names a site of action by number and name', () => {
    expect(groupName(9)).toBe('group 9 (inhibition of EPSP synthase)');
    expect(groupName(99)).toBe('group 99');
  });
});

// Rule P11 of the programme.
describe('a herbicide cell', () => {
  it('with an active of the list is that active and its group', () => {
    for (const { number, actives } of allGroups()) {
      for (const { name, otherNames = [] } of actives) {
        for (const text of [
          name,
          name.toUpperCase(),
          `${name} (${number})`,
          `${number} - ${name}`,
          ...otherNames,
        ]) {
          expect([text, ...resolved(text).slice(0, 2)]).toEqual([text, number, name]);
        }
      }
    }
  });

  it('with a number in any dress is that group', () => {
    for (const { number } of allGroups()) {
      for (const dress of [
        '#',
        'G#',
        'G #',
        'Group #',
        'grp. #',
        'WSSA #',
        'HRAC #',
        'HRAC Group #',
        '(#)',
      ]) {
        expect([dress, ...resolved(dress.replace('#', String(number)))]).toEqual([dress, number, '']);
      }
      expect(resolved(`${number}.0`)).toEqual([number, '', 'NUMBER_FORMAT']);
    }
  });

  it('with a retired number is the group into which it went', () => {
    // From memory, as in the list: 7 to 5, 8 and 16 to 15, 11 to 34, 20 and 21 to 29, 17, 25 and 26 to 0.
    const heirs = { 7: 5, 8: 15, 16: 15, 11: 34, 20: 29, 21: 29, 17: 0, 25: 0, 26: 0 };
    for (const [retired, heir] of Object.entries(heirs)) {
      expect(resolved(retired)).toEqual([heir, '', 'RETIRED_NUMBER']);
    }
  });

  it('with a letter of the old classification is its group, but never on D, I, L or M alone', () => {
    for (const { number, letters } of allGroups()) {
      for (const letter of letters) {
        const unsure = ['D', 'I', 'L', 'M'].includes(letter);
        expect([letter, ...resolved(letter)]).toEqual(
          unsure ? [letter, 'question', 'GROUP_AMBIGUOUS'] : [letter, number, '', 'LEGACY_LETTER'],
        );
      }
    }
  });

  it.each([
    ['E (PPO)', 14, '', 'LEGACY_LETTER'],
    ['D (paraquat)', 22, 'paraquat', 'LEGACY_LETTER'],
    ['ALS', 2, '', 'SOA_NAME'],
    ['PPO-inhibitor', 14, '', 'SOA_NAME'],
    ['inhibition of EPSP synthase', 9, '', 'SOA_NAME'],
    ['auxin transport inhibitor', 19, '', 'SOA_NAME'],
    ['sulfonylureas', 2, '', 'SOA_NAME'],
    ['glyphosphate', 9, 'glyphosate', 'ACTIVE_SPELLING'],
    ['Imazethepyr', 2, 'imazethapyr', 'ACTIVE_SPELLING'],
    ['glyphosate potassium salt', 9, 'glyphosate'],
    ['dicamba (DGA)', 4, 'dicamba'],
    ['chlorimuron', 2, 'chlorimuron-ethyl'],
    ['2,4-D', 4, '2,4-D'],
    ['2.4-D choline', 4, '2,4-D'],
    ['linuron (group 7)', 5, 'linuron', 'RETIRED_NUMBER'],
    ['8 - triallate', 15, 'triallate', 'RETIRED_NUMBER'],
    ['quinclorac (26)', 4, 'quinclorac', 'RETIRED_NUMBER'],
    ['PSII (atrazine)', 5, 'atrazine'],
    ['bleacher (PDS)', 12, '', 'SOA_NAME'],
    [
      'mesosulfuron-methyl + iodosulfuron-methyl-sodium',
      2,
      'iodosulfuron-methyl-sodium,mesosulfuron-methyl',
      'MIXTURE_ONE_GROUP',
    ],
    ['glyphosate + AMS', 9, 'glyphosate', 'ADDITIVE_IGNORED'],
  ])('%s is group %s', (text, ...expected) => {
    expect(resolved(text)).toEqual(expected);
  });

  it.each([
    ['glyphosate + 2,4-D', 'GROUP_MIXTURE'],
    ['2, 9', 'GROUP_MIXTURE'],
    ['14/27', 'GROUP_MIXTURE'],
    ['glyphosate (Group 13)', 'GROUP_CONFLICT'],
    ['M (glyphosate)', 'GROUP_CONFLICT'],
    ['L (paraquat)', 'GROUP_CONFLICT'],
    ['PSII', 'GROUP_AMBIGUOUS'],
    ['bleacher', 'GROUP_AMBIGUOUS'],
    ['growth regulator', 'GROUP_AMBIGUOUS'],
    ['DNA', 'GROUP_AMBIGUOUS'],
    ['K', 'GROUP_AMBIGUOUS'],
    ['99', 'GROUP_UNKNOWN'],
    ['some product', 'GROUP_UNKNOWN'],
    ['imazapir', 'GROUP_UNKNOWN'],
    ['MCPE', 'GROUP_UNKNOWN'],
    ['glyphosate + something', 'GROUP_UNKNOWN'],
  ])('%s is a question: %s', (text, code) => {
    expect(resolved(text)).toEqual(['question', code]);
  });

  it.each([
    ['', 'GROUP_MISSING'],
    ['n/a', 'GROUP_MISSING'],
    ['crop oil concentrate', 'NOT_A_HERBICIDE'],
    ['cloquintocet-mexyl', 'NOT_A_HERBICIDE'],
    ['malathion', 'NOT_A_HERBICIDE'],
  ])('%j is refused: %s', (text, code) => {
    expect(resolved(text)).toEqual(['refused', code]);
  });

  it('with one letter of an active changed is its group or a question, never another group', () => {
    const actives = allGroups().flatMap(({ number, actives: of }) =>
      of.filter(({ name }) => name.length >= 7).map(({ name }) => ({ name, number })),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...actives),
        fc.nat(40),
        fc.constantFrom('a', 'e', 'z', ''),
        (active, at, letter) => {
          const place = at % active.name.length;
          const answer = resolveHerbicide(
            active.name.slice(0, place) + letter + active.name.slice(place + 1),
          );
          if (answer.kind === 'resolved')
            expect([active.name, answer.group]).toEqual([active.name, active.number]);
          else expect(answer.kind).toBe('question');
        },
      ),
      { numRuns: 400 },
    );
  });
});
