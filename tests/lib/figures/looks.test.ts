import { describe, expect, it } from 'vitest';
import {
  fillAttributes,
  INK,
  inkOf,
  lookAttributes,
  SHARE_CLASSES,
  shareClass,
  TONES,
  type Tone,
} from '@/lib/figures/looks';
import { difference, lightness, VISIONS } from './colour-vision';
import { type Colours, pageColours } from './page-colours';

const THEMES = Object.entries(pageColours());
/** Inks that stand beside each other on one map, with the ground of the places that were not screened. */
const MAPS: Record<string, readonly string[]> = {
  'shares and first finds': ['sheet', 'share-1', 'share-2', 'share-3', 'share-4'],
  effort: ['sheet', 'effort-1', 'effort-2', 'effort-3', 'effort-4'],
  clusters: ['sheet', 'level', 'low-1', 'low-2', 'share-3', 'share-4'],
  'found at all': ['sheet', 'confirmed'],
};
/** Differences of CIEDE2000: about 1 is the least that is seen side by side; areas of a map lie apart. */
const APART = 9;
/** Of the ink of a texture from its ground. */
const TEXTURE = 20;

describe('the looks', () => {
  it('put a share into the last class whose bound it reaches', () => {
    expect([0, 0.2499, 0.25, 0.4999, 0.5, 0.75, 1].map(shareClass)).toEqual([1, 1, 2, 2, 3, 4, 4]);
    expect(INK.ramp).toHaveLength(SHARE_CLASSES.length);
  });

  it.each(THEMES)('keep any two inks of one map apart in every vision and in grey, %s', (_, colours) => {
    for (const [map, inks] of Object.entries(MAPS)) {
      for (const [a, b] of pairsOf(inks)) {
        for (const vision of VISIONS) {
          const apart = difference(colours[a]!, colours[b]!, vision);
          expect(apart, `${map}: ${a} and ${b}, ${vision}`).toBeGreaterThan(APART);
        }
      }
    }
  });

  it.each(THEMES)('tell the four states apart in every vision and in grey, %s', (_, colours) => {
    for (const vision of VISIONS) {
      // Two textures on light ground, each plain to see on it, and of different kind: dots and lines.
      expect(difference(colours.clean!, colours.dot!, vision)).toBeGreaterThan(TEXTURE);
      expect(difference(colours.sheet!, colours.hatch!, vision)).toBeGreaterThan(TEXTURE);
      // Every solid ink lies apart from the grounds of all three other states.
      for (const tone of TONES.filter((one) => one.includes('-') || one === 'confirmed')) {
        for (const ground of ['clean', 'sheet'])
          expect(
            difference(colours[tone]!, colours[ground]!, vision),
            `${tone} and ${ground}, ${vision}`,
          ).toBeGreaterThan(8);
      }
    }
    const fills = (['clean', 'hidden', 'blank', 'confirmed'] as const).map(
      (tone) => fillAttributes({ tone, faint: false }, 'p-').fill,
    );
    expect(fills).toEqual(['url(#p-dots)', 'url(#p-hatch)', '#ffffff', '#9a4470']);
  });

  it.each(THEMES)('go one way in lightness with the share and the effort, %s', (theme, colours) => {
    for (const ramp of ['share', 'effort']) {
      const steps = ['sheet', ...[1, 2, 3, 4].map((step) => `${ramp}-${step}`)].map((name) =>
        lightness(colours[name]!),
      );
      const darkening = theme === 'light' ? 1 : -1;
      for (let i = 1; i < steps.length; i++) {
        expect(darkening * (steps[i - 1]! - steps[i]!), `${ramp}-${i}`).toBeGreaterThan(14);
      }
    }
  });

  it('are the same in pictures on paper as on the light page', () => {
    const { light } = pageColours();
    for (const tone of TONES.filter((one) => !['blank', 'hidden', 'clean'].includes(one))) {
      expect(inkOf(tone), tone).toBe(light[tone]);
    }
    expect([INK.clean, INK.dot, INK.hatch]).toEqual([light.clean, light.dot, light.hatch]);
  });

  it('give no class of share to a place without a public one', () => {
    for (const look of ['clean', 'hidden', 'blank'] as const) {
      expect(lookAttributes(look, 0.9, 'p-').class).not.toContain('share');
    }
    expect(lookAttributes('confirmed', null, 'p-').class).toBe('look-confirmed');
  });

  it('are lighter where they rest on little, by a texture of their own', () => {
    const solid = fillAttributes({ tone: 'share-2', faint: false }, 'p-');
    const faint = fillAttributes({ tone: 'share-2', faint: true }, 'p-');
    expect(faint).toEqual({ class: `${solid.class} faint`, fill: 'url(#p-faint-share-2)' });
    for (const tone of ['blank', 'clean', 'hidden'] as const satisfies Tone[]) {
      expect(fillAttributes({ tone, faint: true }, 'p-')).toEqual(
        fillAttributes({ tone, faint: false }, 'p-'),
      );
    }
  });
});

function pairsOf(inks: readonly string[]): [keyof Colours, keyof Colours][] {
  return inks.flatMap((a, i) => inks.slice(i + 1).map((b): [string, string] => [a, b]));
}
