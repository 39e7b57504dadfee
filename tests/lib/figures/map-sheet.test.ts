import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mapFigure } from '@/lib/figures/map-figure';
import { mapSheet } from '@/lib/figures/map-sheet';
import { wrapText } from '@/lib/figures/wrap-text';
import { inventedSquares } from './invented-region';

const region = inventedSquares();
const size = { width: 480, height: 300 };
const map = mapFigure({
  ...{ region, size, grain: 'county', places: [], title: 'Invented map', description: 'Nothing.' },
  ...{ hiddenWords: '', stamp: null, chosen: null, prefix: 'p-' },
});
const sheet = (over: Partial<Parameters<typeof mapSheet>[0]> = {}) =>
  mapSheet({
    ...{ map, size, title: 'Invented <map>', about: 'Of six squares none.', heading: 'Share' },
    ramp: [{ fill: { tone: 'share-1', faint: false }, words: 'under 25 %' }],
    states: [{ fill: { tone: 'share-2', faint: true }, words: 'few were screened' }],
    notes: ['Invented note.'],
    source: ['Invented programme.', 'Release 7, July 1, 2026.'],
    ...{ cautions: 'None found is not none there.', stamp: 'Simulated data' },
    ...over,
  });

describe('a map on a sheet', () => {
  it('carries its title, legend, source, cautions and that it is simulated, escaped, and asks for nothing', () => {
    const { svg } = sheet();
    for (const words of [
      'Invented &lt;map&gt;',
      'under 25 %',
      'few were screened',
      'Invented note.',
      'Release 7, July 1, 2026.',
      'None found is not none there.',
      'Simulated data',
    ])
      expect(svg.replace(/<\/tspan><tspan[^>]*>/g, ' ')).toContain(words);
    expect(svg).toContain('id="sheet-faint-share-2"');
    expect(svg).not.toMatch(/ style=|<script|href=|url\((?!#)/);
    expect(sheet({ stamp: null }).svg).not.toContain('Simulated');
  });

  it('is as high as what stands on it, with every baseline inside', () => {
    for (const notes of [[], Array.from({ length: 30 }, (_, i) => `Invented note ${i}.`)]) {
      const { svg, size: whole } = sheet({ notes });
      const baselines = [...svg.matchAll(/<tspan x="[\d.]+" y="(\d+)"/g)].map(([, y]) => Number(y));
      expect(Math.max(...baselines)).toBeLessThan(whole.height);
      expect(svg).toContain(`viewBox="0 0 ${whole.width} ${whole.height}"`);
    }
  });
});

describe('wrapped words', () => {
  it('keep every word in its order, and each line of several words inside the width', () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { maxLength: 40 }),
        fc.integer({ min: 20, max: 400 }),
        (words, width) => {
          const lines = wrapText(words.join(' '), width, 10);
          expect(lines.join(' ').split(' ').filter(Boolean)).toEqual(words);
          for (const line of lines.filter((one) => one.includes(' ')))
            expect(line.length * 5).toBeLessThanOrEqual(width);
        },
      ),
    );
  });
});
