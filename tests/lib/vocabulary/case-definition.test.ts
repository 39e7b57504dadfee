import { describe, expect, it } from 'vitest';
import { CASE_DEFINITION, CASE_DEFINITIONS, caseDefinitionOn } from '@/lib/vocabulary/case-definition';

describe('case definitions', () => {
  it('are named, and the dated ones stand in order of their days', () => {
    const [first] = CASE_DEFINITIONS;
    expect(caseDefinitionOn('2026-11-20')).toBe(first);
    expect(caseDefinitionOn('1999-01-01')).toBe(first);
    const days = CASE_DEFINITIONS.flatMap(({ from }) => from ?? []);
    expect(days).toEqual([...days].sort());
    expect(new Set(CASE_DEFINITIONS.map(({ version }) => version)).size).toBe(CASE_DEFINITIONS.length);
    for (const { source } of CASE_DEFINITIONS) expect(source).not.toBe('');
  });

  it('of a programme are refused with the field that is wrong', () => {
    const [first] = CASE_DEFINITIONS;
    const problem = (over: object) =>
      CASE_DEFINITION.safeParse({ ...first, ...over }).error?.issues[0]?.path.join('.');
    expect(problem({})).toBeUndefined();
    expect(problem({ resistantPercent: 0 })).toBe('resistantPercent');
    expect(problem({ survivorsPercent: 20 })).toBe('survivorsPercent');
    expect(problem({ from: '2026-02-31' })).toBe('from');
    expect(problem({ source: '' })).toBe('source');
    expect(problem({ minimumPlants: { ...first!.minimumPlants, molecular: 0 } })).toBe(
      'minimumPlants.molecular',
    );
    expect(problem({ emergence: { percent: 20 } })).toBe('emergence.inclusive');
  });

  it('of a programme may not carry a rule that nothing reads', () => {
    const { error } = CASE_DEFINITION.safeParse({ ...CASE_DEFINITIONS[0], highPercent: 40 });
    expect(error?.issues[0]?.message).toContain('highPercent');
  });
});
