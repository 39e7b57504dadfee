import { describe, expect, it } from 'vitest';
import { list, percent } from '@/app/messages/en/format';
import { absence, headline, misfitWords, placeWords, summary } from '@/app/messages/en/sentences';
import { estimate, type PlaceNumbers } from '@/app/view/place-numbers';
import { countyPlaces, regionPlace } from '@/app/view/places';
import { inventedRegion } from '../invented-release';

const region = inventedRegion();
const window = { first: 2022, last: 2024 };
const numbers = (over: Partial<PlaceNumbers> = {}): PlaceNumbers => ({
  place: regionPlace(region),
  status: 'confirmed',
  estimate: estimate(41, 29),
  ...over,
});

describe('sentences made from numbers', () => {
  it('open with the counts and never with a share alone', () => {
    expect(headline('waterhemp', 'group 9', numbers(), window)).toBe(
      '29 of 41 waterhemp populations screened in Invented basin in 2022–2024 were resistant to group 9',
    );
    // 29 of 41: 70.7 %, Wilson 95 % interval 55.5–82.4 %, worked out by hand from Wilson 1927, JASA 22:209.
    expect(summary(numbers(), [], 'county')[0]).toMatch(/71\u00a0% .*interval 56–82\u00a0%/);
    expect(summary(numbers(), [], 'county')[0]).toContain('not the share of all fields');
  });

  it('do not let none found stand for none there', () => {
    const clean = numbers({ status: 'none confirmed', estimate: estimate(20, 0) });
    expect(headline('kochia', 'group 14', clean, window)).toMatch(
      /^No resistance to group 14 was found in 20/,
    );
    // 0 of 20: upper Wilson limit 16.1 % (trade brief, section 4: 0/20 → 0–16.1 %).
    expect(summary(clean, [], 'county')[0]).toContain('up to 16\u00a0%');
  });

  it('say of a withheld place why in general, with no number but the seasons', () => {
    for (const place of countyPlaces(region)) {
      const hidden = { place, status: 'no public information', estimate: null } as const;
      expect(placeWords(hidden)).toBe('No public information.');
      expect(absence(hidden, window)!.replace('2022–2024', '')).not.toMatch(/\d/);
      expect(absence(hidden, 'all')).not.toMatch(/\d/);
    }
  });

  it('never round something to nothing, nor not all to all', () => {
    expect([0, 0.001, 0.5, 0.999, 1].map(percent)).toEqual([
      '0\u00a0%',
      '<1\u00a0%',
      '50\u00a0%',
      '>99\u00a0%',
      '100\u00a0%',
    ]);
  });

  it('count what they leave out of a list', () => {
    expect(list(['a', 'b', 'c'])).toBe('a; b and c');
    expect(list(['a', 'b', 'c', 'd'], { limit: 3 })).toBe('a; b and 2 more');
  });

  it('repeat no more of a wrong address than is needed to know it again', () => {
    expect(misfitWords({ parameter: 'place', asked: 'x'.repeat(5000) }).length).toBeLessThan(120);
  });
});
