import { describe, expect, it } from 'vitest';
import { locatorFigure } from '@/lib/figures/locator-figure';
import { loadRegion } from '@/lib/geography/region';

const region = loadRegion({ name: 'Two states', states: ['KS', 'NE'] });
const SIZE = { width: 320, height: 240 };
const draw = (county: string) => locatorFigure({ region, county, title: 'Where <it> lies', size: SIZE });

describe('the picture of where a county lies', () => {
  it('names the county and each that touches it, and no other', () => {
    region.counties.forEach((county, i) => {
      const names = [...draw(county.fips).matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, name]) => name);
      const touching = region.neighbours[i]!.map((other) => region.counties[other]!.name);
      expect(names.sort()).toEqual([...touching, county.name].sort());
    });
  });

  it('keeps the county and its neighbours inside the picture', () => {
    for (const county of region.counties.slice(0, 40)) {
      const drawn = draw(county.fips);
      const [, own] = /class="locator-own" d="([^"]+)"/.exec(drawn)!;
      const numbers = [...own!.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)];
      expect(numbers.length).toBeGreaterThan(3);
      for (const [, x, y] of numbers) {
        expect(Number(x)).toBeGreaterThanOrEqual(9);
        expect(Number(x)).toBeLessThanOrEqual(SIZE.width - 9);
        expect(Number(y)).toBeGreaterThanOrEqual(9);
        expect(Number(y)).toBeLessThanOrEqual(SIZE.height - 9);
      }
    }
  });

  it('escapes its title, has no style and no script, and refuses a county that is not there', () => {
    const drawn = draw(region.counties[0]!.fips);
    expect(drawn).toContain('<title>Where &lt;it&gt; lies</title>');
    expect(drawn).not.toMatch(/style=|<script|href=/);
    expect(() => draw('99999')).toThrow(RangeError);
  });
});
