import { describe, expect, it } from 'vitest';
import { publicText } from '@/lib/jobs/public-text';

// All texts are invented; 555 numbers belong to nobody.
describe('a text that everybody is to read', () => {
  it('stays as it is, on one line', () => {
    const text =
      'In 2021 (release 3) 14 samples of Dawes County were put down\n to Sioux County: use 2019–2021 by district.';
    expect(publicText(text, 'It')).toBe(text.replace('\n ', ' '));
    for (const harmless of [
      'Seasons 2019-2021 and 2022-2024.',
      'See 10.1002/ps.7000, p. 12.',
      '2026-03-01: 3 of 412 cells',
    ])
      expect(publicText(harmless, 'It')).toBe(harmless);
  });

  it.each([
    'Call 402-555-0134 for the right counts.',
    'Call (402) 555-0134.',
    'Ring 555 0134.',
    'Ring +49 30 5550134.',
    'Ask for the table at desk@example.org.',
    'Mr. Example of the laboratory mistook two trays.',
    'Ask Mary Example for the tray.',
  ])('may not carry “%s”', (text) => {
    expect(() => publicText(text, 'It')).toThrow('leave it out');
  });

  it.each([
    ['', 'is empty'],
    [' \n', 'is empty'],
    ['<b>Wrong</b>', 'plain words'],
    ['=1+1', 'plain words'],
    ['right\u202eleft', 'plain words'],
    ['x'.repeat(2001), '2000 fit'],
  ])('is refused where it is %j', (text, words) => {
    expect(() => publicText(text, 'It')).toThrow(words);
  });

  it('is refused where there is none', () => {
    expect(() => publicText(undefined, 'The erratum')).toThrow('The erratum is empty');
  });
});
