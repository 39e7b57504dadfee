import { describe, expect, it } from 'vitest';
import { multipleFactOf, multipleFacts, SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { Fact } from '@/lib/cube/types';
import { sample } from '../release/support/series';

// Invented.
const every = () => true;
const against = (group: number, result: Fact['result']) => sample('p', { group, result });

describe('one fact about several groups for each population', () => {
  it('tells none, one, or more of the groups that it is resistant to', () => {
    const resultOf = (...results: Fact['result'][]) =>
      multipleFacts(
        results.map((result, g) => against(g + 1, result)),
        every,
      )[0]?.result;
    expect(resultOf('susceptible', 'some survivors')).toBe('susceptible');
    expect(resultOf('resistant', 'susceptible', 'susceptible')).toBe('some survivors');
    expect(resultOf('resistant', 'resistant')).toBe('resistant');
    expect(resultOf('resistant', 'resistant', 'resistant')).toBe('resistant');
  });

  it('needs whole-plant results against two groups that count', () => {
    expect(multipleFactOf([against(2, 'resistant')])).toBeNull();
    expect(multipleFactOf([against(2, 'resistant'), against(9, 'inconclusive')])).toBeNull();
    const molecular = { ...against(9, 'resistant'), assay: 'molecular' as const };
    expect(multipleFactOf([against(2, 'resistant'), molecular])).toBeNull();
    const two = [against(2, 'resistant'), against(9, 'resistant')];
    expect(multipleFacts(two, ({ group }) => group === 2)).toEqual([]);
  });

  it('keeps whose and whence it is, and is passed over when it is given back', () => {
    const two = [against(2, 'resistant'), against(9, 'susceptible')];
    const [made] = multipleFacts(two, every);
    expect(made).toMatchObject({
      population: 'p',
      operation: 'farm of p',
      group: SEVERAL_GROUPS,
      actives: [],
    });
    expect(multipleFacts([...two, made!], every)).toEqual([made]);
  });
});
