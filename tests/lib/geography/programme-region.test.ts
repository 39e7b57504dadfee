import { describe, expect, it } from 'vitest';
import { programmeRegion } from '@/lib/geography/programme-region';

const area = { name: 'Invented', simulated: true };

describe('the region of a programme', () => {
  it('has the invented districts where it is simulated and all its states have some', () => {
    const { districts, counties } = programmeRegion({ ...area, states: ['NE', 'KS'] });
    expect(new Set(districts.map(({ state }) => state))).toEqual(new Set(['NE', 'KS']));
    expect(counties.every(({ district }) => district !== null)).toBe(true);
  });

  it.each([
    ['a simulated one reaches beyond them', true, ['NE', 'IA']],
    ['a simulated one lies beyond them', true, ['IA']],
    ['it is a real one', false, ['NE', 'KS']],
  ])('has no districts where %s and brought none', (_, simulated, states) => {
    const { districts, counties } = programmeRegion({ name: 'Invented', simulated, states });
    expect(districts).toEqual([]);
    expect(counties.every(({ district }) => district === null)).toBe(true);
    expect(new Set(counties.map(({ state }) => state))).toEqual(new Set(states));
  });
});
