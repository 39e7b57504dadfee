import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readResult } from '@/lib/intake/read-result';
import { ASSAYS, type Assay } from '@/lib/vocabulary/terms';

// Words as laboratories write them; all cells are invented.
const reading = (text: string, assay: Assay = 'whole plant') => {
  const { value, problems } = readResult(text, assay);
  return value ?? problems[0]!.code;
};

describe('a stated result', () => {
  it.each([
    ['R', 'resistant'],
    ['RR', 'resistant'],
    ['res.', 'resistant'],
    ['(R)', 'resistant'],
    [' Resistant ', 'resistant'],
    ['S', 'susceptible'],
    ['sensitive', 'susceptible'],
    ['Not resistant', 'susceptible'],
    ['not-resistant', 'susceptible'],
    ['developing', 'some survivors'],
    ['Developing resistance', 'some survivors'],
    ['inconclusive', 'inconclusive'],
  ])('%s is %s', (text, expected) => {
    for (const assay of ASSAYS) expect(reading(text, assay)).toBe(expected);
  });

  it.each([
    'R?',
    'R/S',
    'I',
    'int.',
    'seg',
    'segregating',
    'suspected resistant',
    'tolerant',
    'R1',
    'R-',
    '–R',
    'R+',
    '+R',
  ])('%s may be meant in two ways: a question that offers the four results', (text) => {
    const { value, problems } = readResult(text, 'whole plant');
    expect(value).toBeNull();
    expect(problems).toMatchObject([{ code: 'RESULT_UNREADABLE', outcome: 'in question', memorable: true }]);
    expect(problems[0]!.candidates).toHaveLength(4);
  });

  it('in per cent is a question, and control is not taken for survival', () => {
    expect(readResult('85 % control', 'whole plant').problems[0]!.reason).toContain('not survival');
    expect(readResult('15% survival', 'whole plant').problems[0]!.reason).toContain('without plants');
    expect(reading('15 %')).toBe('RESULT_PERCENT');
    expect(reading('R (85 %)')).toBe('RESULT_PERCENT');
  });

  it('in signs is one of DNA tests alone', () => {
    const signs = [
      ...['+', 'positive', 'Pos.', 'mutant', 'detected'].map((text) => [text, 'resistant']),
      ...['-', 'negative', 'neg.', 'wild type', 'wild-type', 'Not detected'].map((text) => [
        text,
        'susceptible',
      ]),
    ] as const;
    for (const [text, expected] of signs) {
      expect([text, reading(text!, 'molecular')]).toEqual([text, expected]);
      expect([text, reading(text!)]).toEqual([text, 'RESULT_UNREADABLE']);
    }
  });

  it('that is blank is asked for', () => {
    for (const text of ['', '  ', 'n/a', '--']) expect(reading(text)).toBe('RESULT_MISSING');
  });

  it('is a result or a question, never both or neither, whatever the cell says', () => {
    const cells = fc.oneof(fc.string({ unit: 'binary' }), fc.stringMatching(/^[rsRS+\-–/? %0-9]{0,6}$/));
    fc.assert(
      fc.property(cells, fc.constantFrom(...ASSAYS), (text, assay) => {
        const { value, problems } = readResult(text, assay);
        expect(problems.length).toBe(value === null ? 1 : 0);
        expect(readResult(` ${text}\t`, assay).value).toBe(value);
        if (value !== null && /[?%\d]/.test(text)) throw new Error(`${text} is not certain`);
      }),
    );
  });
});
