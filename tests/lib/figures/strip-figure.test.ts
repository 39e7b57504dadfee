import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type StripShare, stripFigure } from '@/lib/figures/strip-figure';
import { PLACE_STATUSES } from '@/lib/vocabulary/terms';

// Invented shares.
const shares = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 0, max: 1, noNaN: true }))).map((three) => {
  const [low, share, high] = three.sort((a, b) => a - b);
  return { low, share, high } as StripShare;
});
const attribute = (svg: string, name: string) => Number(new RegExp(` ${name}="([^"]*)"`).exec(svg)![1]);
const barOf = (svg: string) => /<rect[^>]*strip-interval[^>]*>/.exec(svg)![0];
const markOf = (svg: string) => /<circle[^>]*>/.exec(svg)![0];

describe('a number as a strip', () => {
  it('has its mark on its interval, further right the larger the share', () => {
    fc.assert(
      fc.property(shares, shares, (a, b) => {
        const [one, other] = [a, b].map((share) => stripFigure('confirmed', share, 's-'));
        const at = attribute(markOf(one!), 'cx');
        const bar = barOf(one!);
        expect(at).toBeGreaterThanOrEqual(attribute(bar, 'x') - 0.1);
        expect(at).toBeLessThanOrEqual(attribute(bar, 'x') + attribute(bar, 'width') + 0.2);
        if (a.share < b.share) expect(at).toBeLessThanOrEqual(attribute(markOf(other!), 'cx'));
      }),
    );
  });

  it('that is withheld, or not there, is the same whatever is given', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('no public information' as const, 'not screened' as const),
        shares,
        (status, share) => {
          if (status === 'no public information')
            expect(stripFigure(status, share, 's-')).toBe(stripFigure(status, null, 's-'));
          expect(stripFigure(status, share, 's-')).not.toContain('circle');
        },
      ),
    );
  });

  it('has four looks that differ by more than colour', () => {
    const share = { share: 0, low: 0, high: 0.3 };
    const shapes = PLACE_STATUSES.map((status) =>
      stripFigure(
        status,
        status === 'confirmed' || status === 'none confirmed' ? share : null,
        's-',
      ).replaceAll(/#[0-9a-f]{6}/g, ''),
    );
    expect(new Set(shapes).size).toBe(4);
    expect(shapes[0]).not.toContain('mark open');
    expect(shapes[1]).toContain('url(#s-dots)');
    expect(shapes[1]).toContain('mark open');
    expect(shapes[2]).toContain('url(#s-hatch)');
    expect(shapes[3]).toContain('stroke-dasharray');
  });

  it('stays inside its frame', () => {
    for (const share of [0, 1]) {
      const at = attribute(markOf(stripFigure('confirmed', { share, low: share, high: share }, 's-')), 'cx');
      expect(at).toBeGreaterThanOrEqual(9.5);
      expect(at).toBeLessThanOrEqual(230.5);
    }
  });
});
