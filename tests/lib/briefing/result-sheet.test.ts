import { describe, expect, it } from 'vitest';
import { resultSheetPdf } from '@/lib/briefing/result-sheet/result-sheet-pdf';
import { checkWords, ownCautions, resultWords, testCells } from '@/lib/briefing/result-sheet/sheet-words';
import type { ResultSheet, SheetTest } from '@/lib/briefing/result-sheet/types';
import { CASE_DEFINITIONS } from '@/lib/vocabulary/case-definition';

/** Everything here is invented. */
const test = (over: Partial<SheetTest> = {}): SheetTest => ({
  ...{ group: 9, actives: ['glyphosate'], assay: 'whole plant', rateMultiple: 1, treated: 40, alive: 8 },
  ...{ result: 'resistant', caseDefinition: '2026-1', contradictory: false, isFirstFind: false },
  ...over,
});
const sheet = (over: Partial<ResultSheet> = {}): ResultSheet => ({
  ...{
    id: 1,
    sample: 'S-1',
    season: 2024,
    laboratory: 'Invented Laboratory',
    species: 'KCHSC',
    county: '31109',
  },
  ...{ collected: '2024-09-14', received: null, crop: 'wheat', design: 'submitted', reported: null },
  ...{ tests: [test()], runs: [], programme: 'Invented programme', simulated: true },
  ...{ contact: 'The invented weed clinic.', regulatedNotice: '' },
  definitions: [{ version: '2026-1', words: CASE_DEFINITIONS[0]!.words }],
  ...over,
});

describe('a result sheet', () => {
  it('says what survived at which rate, with the interval of the share', () => {
    // 8 of 40: Wilson 10.5–34.8 % (trade brief of the project, computed there).
    expect(testCells(test())).toEqual([
      expect.stringMatching(/^Group 9 \(.*\): glyphosate$/),
      '1 × label rate',
      '8 of 40',
      '20 % (10–35 %)',
      'resistant',
    ]);
    expect(testCells(test({ treated: null, alive: null, rateMultiple: null })).slice(1, 4)).toEqual([
      'not told',
      '–',
      '–',
    ]);
  });

  it('tells resistance, survivors and susceptibility in one paragraph, each active once', () => {
    const tests = [
      test(),
      test({ rateMultiple: 2, alive: 0, result: 'susceptible' }),
      test({ group: 4, actives: ['dicamba'], result: 'some survivors' }),
      test({ group: 4, actives: ['fluroxypyr'], result: 'susceptible' }),
    ];
    expect(resultWords(sheet({ tests }))).toBe(
      'In the greenhouse this kochia population was resistant to glyphosate (group 9). It had some survivors, fewer than ' +
        'the definition asks, against dicamba (group 4). It was susceptible to fluroxypyr (group 4).',
    );
    expect(resultWords(sheet({ tests: [test({ result: 'void run' })] }))).toMatch(/^No call could be made/);
  });

  it('warns of what hangs on each result', () => {
    const words = (over: Partial<SheetTest>) => ownCautions(sheet({ tests: [test(over)] })).join(' ');
    expect(words({ assay: 'molecular' })).toContain('known mutations only');
    expect(words({ isFirstFind: true })).toContain('screened a second time');
    expect(words({ result: 'susceptible' })).toContain('may still stand in the field');
    expect(words({ contradictory: true })).toContain('inconclusive until they are settled');
    // Group 1 never controlled broadleaf weeds (vocabulary: neverSusceptibleTo).
    expect(words({ group: 1 })).toContain('tolerance, and no sign of resistance');
    expect(words({})).not.toContain('tolerance');
    expect(checkWords(sheet())).toEqual([expect.stringContaining('nothing is known of how the run went')]);
  });

  it('is a tagged document of a page for each sample, the same for the same', async () => {
    const sheets = [sheet(), sheet({ id: 2, sample: 'S-2', simulated: false })];
    const pdf = Buffer.from(await resultSheetPdf(sheets, '2026-02-10')).toString('latin1');
    expect(pdf.startsWith('%PDF-1.7')).toBe(true);
    expect(pdf).toContain('/MarkInfo');
    expect(pdf).toContain('/Lang (en)');
    expect(pdf.match(/\/Type \/Page\b/g)).toHaveLength(2);
    expect(Buffer.from(await resultSheetPdf(sheets, '2026-02-10')).toString('latin1')).toBe(pdf);
    await expect(resultSheetPdf([], '2026-02-10')).rejects.toThrow(RangeError);
  });
});
