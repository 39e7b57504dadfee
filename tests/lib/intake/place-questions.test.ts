import { describe, expect, it } from 'vitest';
import { judgeOne } from './judging';

// Every row is invented.
const reasonOf = async (cells: Record<string, string>, states?: string[]) => {
  const { reasons } = await judgeOne(cells, states ? { states } : {});
  return reasons[0];
};

describe('a question about a place', () => {
  it('offers what may be meant, and each answer settles it', async () => {
    const rows: Record<string, string>[] = [
      { County: 'Lankaster' },
      { County: 'St. Louis', State: 'MO' },
      { County: 'Lancaster', Lat: '41.2', Long: '-96.6' },
      { County: '', Lat: '40.7835', Long: '-96.9136' },
    ];
    for (const cells of rows) {
      const asked = await reasonOf(cells);
      expect(asked, JSON.stringify(cells)).toMatchObject({
        key: 'county',
        candidates: expect.arrayContaining([expect.any(String)]),
      });
      for (const answer of asked!.candidates) {
        const settled = await judgeOne({ ...cells, County: answer });
        // The other county than that of the point is asked about again; a name without a point holds.
        if (cells.Lat === undefined) expect(settled.county, answer).toMatch(/^\d{5}$/);
      }
    }
  });

  it('is remembered where it is about a spelling alone', async () => {
    expect((await reasonOf({ County: 'Lankaster' }))?.memorable).toBe(true);
    expect((await reasonOf({ County: '', Lat: '', Long: '' }))?.memorable).toBe(false);
  });

  it('of a ZIP code alone says that it may reach into several counties', async () => {
    const { judgeAll, GOOD } = await import('./judging');
    const headings = [...Object.keys(GOOD), 'ZIP code'];
    const cells = headings.map((heading) =>
      heading === 'County' ? '' : heading === 'ZIP code' ? '68502' : GOOD[heading],
    );
    const quoted = (all: (string | undefined)[]) => all.map((text) => `"${text}"`).join(',');
    const [row] = await judgeAll(`${quoted(headings)}\n${quoted(cells)}\n`);
    expect(row).toMatchObject({ outcome: 'in question', reasons: [{ code: 'ZIP_ONLY', key: 'county' }] });
  });

  it('of a planning region is asked unless a point tells', async () => {
    const cells = { State: 'CT', County: 'Capitol Planning Region' };
    const asked = await reasonOf(cells, ['CT']);
    expect(asked).toMatchObject({
      code: 'COUNTY_AMBIGUOUS',
      candidates: ['Hartford County, CT', 'Tolland County, CT'],
    });
    const located = await judgeOne({ ...cells, Lat: '41.76', Long: '-72.67' }, { states: ['CT'] });
    expect(located).toMatchObject({ outcome: 'accepted', county: '09003' });
  });
});
