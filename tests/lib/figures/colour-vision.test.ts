import { converter, differenceCiede2000 } from 'culori';
import { describe, expect, it } from 'vitest';
import { seen, VISIONS } from './colour-vision';

const linear = converter('lrgb');

describe('the measure of colours', () => {
  // Sharma, Wu & Dalal 2005, Color Research and Application 30, 21–30, table 1: pairs 1, 7, 17, 29 and 34.
  it.each([
    [[50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
    [[50, 0, 0], [50, -1, 2], 2.3669],
    [[50, 2.5, 0], [73, 25, -18], 27.1492],
    [[22.7233, 20.0904, -46.694], [23.0331, 14.973, -42.5619], 2.0373],
    [[2.0776, 0.0795, -1.135], [0.9033, -0.0636, -0.5514], 0.9082],
  ])('gives the published difference of %j and %j', (a, b, expected) => {
    const colour = ([l, a1, b1]: number[]) => ({ mode: 'lab65' as const, l: l!, a: a1!, b: b1! });
    expect(differenceCiede2000()(colour(a), colour(b))).toBeCloseTo(expected, 4);
  });

  it('sees grey alike in every vision, which holds where each row of a matrix adds up to 1', () => {
    for (const vision of VISIONS) {
      const { r, g, b } = linear(seen('#808080', vision));
      for (const value of [r, g, b]) expect(value, vision).toBeCloseTo(0.215861, 4);
    }
  });
});
