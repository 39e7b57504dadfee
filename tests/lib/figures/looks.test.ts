import { describe, expect, it } from 'vitest';
import { INK, lookAttributes, SHARE_CLASSES, shareClass } from '@/lib/figures/looks';

/** CIE lightness L* of an sRGB colour: what is left of it on a grey photocopy (IEC 61966-2-1; CIE 15:2004). */
function lightness(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  const y = 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
}

describe('the looks', () => {
  it('put a share into the last class whose bound it reaches', () => {
    expect([0, 0.2499, 0.25, 0.4999, 0.5, 0.75, 1].map(shareClass)).toEqual([1, 1, 2, 2, 3, 4, 4]);
    expect(INK.ramp).toHaveLength(SHARE_CLASSES.length);
  });

  it('darken with the share by at least 15 of lightness a step, so that grey paper keeps the classes', () => {
    const steps = [INK.paper, ...INK.ramp].map(lightness);
    for (let i = 1; i < steps.length; i++) expect(steps[i - 1]! - steps[i]!).toBeGreaterThan(15);
  });

  it('give no class of share to a place without a public one', () => {
    for (const look of ['clean', 'hidden', 'blank'] as const) {
      expect(lookAttributes(look, 0.9, 'p-').class).not.toContain('share');
    }
    expect(lookAttributes('confirmed', null, 'p-').class).toBe('look-confirmed');
  });
});
