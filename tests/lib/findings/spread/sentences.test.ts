import { describe, expect, it } from 'vitest';
import { findNearness } from '@/lib/findings/spread/find-nearness';
import { findSpeed } from '@/lib/findings/spread/find-speed';
import { findTogetherness } from '@/lib/findings/spread/find-togetherness';
import { reassuranceSentence } from '@/lib/findings/spread/reassure-counties';
import { speedSentence } from '@/lib/findings/spread/speed-sentence';
import type { SpeedOfSpread } from '@/lib/findings/types';
import { inventedFront } from '../../stats/spread/invented-front';

const SPEED: Omit<SpeedOfSpread, 'sentence'> = {
  ...{ kind: 'speed', species: 'ABCDE', group: 9, grain: 'county', from: 2013, to: 2024 },
  ...{ speed: 38.4, low: 33.6, high: 44.4, model: 'arrival', otherSpeed: 36, direction: null, jumps: [] },
  origins: [{ lon: -100, lat: 40, place: 'a', kilometres: 12, since: 2014 }],
  newFinds: 40,
  reason: null,
};
const nameOf = (key: string) => `${key} County`;

describe('the sentence of a speed', () => {
  it('holds speed, interval and origin', () => {
    expect(speedSentence(SPEED, 'Kochia', nameOf)).toBe(
      'Kochia, group 9, 2013 to 2024: it has moved outwards by about 38 km a season (95 % interval 34 to 44 km), from near a County (since about 2014). This is a speed between places that were screened: of a front over the whole region, not of seed from field to field.',
    );
  });

  it('names several beginnings, a direction, jumps, and another model that says otherwise', () => {
    const said = speedSentence(
      {
        ...SPEED,
        origins: [...SPEED.origins, { lon: -98, lat: 41, place: 'b', kilometres: 140, since: 2016 }],
        otherSpeed: 20,
        direction: { towards: 92, fastest: 60, slowest: 24, p: 0.004 },
        jumps: [{ place: 'c', season: 2019, nearest: 'a', kilometres: 312 }],
      },
      'Kochia',
      nameOf,
    );
    expect(said).toContain(
      'from 2 beginnings: near a County (since about 2014) and somewhere beyond b County (since about 2016).',
    );
    expect(said).toContain('Another model of how places fill says 20 km, so take it as rough.');
    expect(said).toContain(
      'It moves faster towards the east (about 60 km a season, against 24 km the other way; p = 0.0040).',
    );
    expect(said).toContain(
      '1 find lies too far from any earlier one for this front: c County (2019, 312 km from the nearest).',
    );
  });

  it('is the reason where there is none', () => {
    const none = { ...SPEED, speed: null, low: null, high: null, reason: 'Nothing moves.' };
    expect(speedSentence(none, 'Kochia', nameOf)).toBe(
      'Kochia, group 9, 2013 to 2024: no speed can be told. Nothing moves.',
    );
  });
});

describe('a planted front', () => {
  const late = new Map<string, number>();
  const { map, weights } = inventedFront(11, (x, y, season, random) => {
    const place = `${x}|${y}`;
    if (!late.has(place)) late.set(place, 2 * random.uniform() - 1);
    return season >= 2013 + Math.hypot(x - 200, y - 170) / 40 + late.get(place)! ? 0.5 : 0;
  });
  const about = 'Kochia, group 9, 2012–2021';

  it('is near, moves, and comes together, in words with their uncertainty', () => {
    const near = findNearness({ counts: map.counts, weights, points: map.points, seed: 1, about });
    expect(near.verdict).toBe('near');
    expect(near.sentence).toMatch(
      /^Kochia, group 9, 2012–2021: new finds lie near earlier ones: of \d+ counties found new after a clean record \d+ had an earlier find next door, where [\d.]+ were to be expected .*; odds ratio [\d.]+, 95 % interval [\d.]+ to [\d.]+ \(p < 0.001\)\. Tests being equal/,
    );
    expect(near.distance.observed!).toBeLessThan(near.distance.expected!);
    const speed = findSpeed({
      ...{ species: 'ABCDE', group: 9, map, grain: 'county', speciesName: 'Kochia' },
      points: Array.from(map.points.x, (_, i) => `p${i}`),
      pointNames: Array.from(map.points.x, (_, i) => `Place ${i}`),
      options: { weights, nearnessP: near.p },
    });
    expect(speed.low!).toBeLessThan(40);
    expect(speed.high!).toBeGreaterThan(40);
    expect(speed.sentence).toMatch(/from near Place \d+ \(since about 201[234]\)/);
    const populations = { season: [], county: [], sender: [], resistant: [] } as Record<string, number[]>;
    map.counts.tested.forEach((tested, cell) => {
      for (let k = 0; k < tested; k += 1) {
        populations.season!.push(Math.floor(cell / map.counts.places));
        populations.county!.push(cell % map.counts.places);
        populations.sender!.push(populations.sender!.length);
        populations.resistant!.push(Number(k < map.counts.resistant[cell]!));
      }
    });
    const together = findTogetherness({
      populations: populations as never,
      counts: map.counts,
      points: map.points,
      seed: 1,
      about,
    });
    expect(together.knox!.p).toBeLessThan(0.01);
    expect(together.sentence).toMatch(
      /finds come together in space and time: [\d,]+ pairs of finds within \d+ km/,
    );
    expect(together.mantel!.r).not.toBeNull();
  });

  it('of nothing found says that there is not enough', () => {
    const counts = { ...map.counts, resistant: new Int32Array(map.counts.tested.length) };
    expect(findNearness({ counts, weights, points: map.points, seed: 1, about }).sentence).toBe(
      'Kochia, group 9, 2012–2021: not enough to say whether new finds lie near earlier ones: no county found new after a clean record.',
    );
    const none = { season: [], county: [], sender: [], resistant: [] };
    expect(
      findTogetherness({ populations: none, counts, points: map.points, seed: 1, about }).sentence,
    ).toContain('not enough to say whether finds come together');
  });
});

describe('reassurance in words', () => {
  const county = { county: '31001', tested: 6, lastTested: 2024, upper: 0.393, more: 23 };

  it('tells the limit, and how many more would lower it', () => {
    expect(reassuranceSentence(county, 'Adams County, NE', '2022–2024')).toBe(
      'Adams County, NE: none found in 6 screened in 2022–2024, which still allows up to 39 % of populations like these; 23 more, all clean, would bring that to 10 % or less.',
    );
  });

  it('says nothing of a county that was not screened lately', () => {
    expect(
      reassuranceSentence(
        { ...county, tested: 0, lastTested: 2019, more: 29 },
        'Adams County, NE',
        '2022–2024',
      ),
    ).toBe(
      'Adams County, NE: not screened in 2022–2024 (none found before, last in 2019), so nothing can be said of it. 29 populations, all clean, would show that at most 10 % are resistant.',
    );
    expect(
      reassuranceSentence(
        { ...county, tested: 0, lastTested: null, more: 29 },
        'Adams County, NE',
        '2022–2024',
      ),
    ).toContain('never screened, so nothing can be said of it');
  });

  it('asks for no more where enough was screened', () => {
    expect(
      reassuranceSentence({ ...county, tested: 40, upper: 0.072, more: 0 }, 'Adams County, NE', '2024'),
    ).toBe(
      'Adams County, NE: none found in 40 screened in 2024, which still allows up to 7 % of populations like these.',
    );
  });
});
