import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LookNextInput, lookNext } from '@/lib/findings/spread/look-next';
import { Random } from '@/lib/stats/random';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { buildWeights } from '@/lib/stats/weights';
import { relabel } from '../../stats/invented-map';
import { inventedCounts } from '../../stats/spread/invented-counts';
import { front, squareLand } from './look-next-invented';

const placesOf = (input: LookNextInput) => lookNext(input).places.map(({ place }) => place);

describe('where to look next', () => {
  it('lists the places never found, each once, those before the front first', () => {
    const input = front();
    const { order, places, model } = lookNext(input);
    expect(order).toBe('hazard');
    const found = arrivals(input.counts).firstFound;
    expect(places.map(({ place }) => place).toSorted()).toEqual(
      input.places.filter((_, i) => found[i] === -1).toSorted(),
    );
    // The front stands in column 2 and left rows 3 and 5 of it out.
    expect(new Set(places.slice(0, 2).map(({ place }) => place))).toEqual(new Set(['r3c2', 'r5c2']));
    for (const { hazardRatio, low, high } of model!.measures) {
      expect(hazardRatio).toBeGreaterThan(1);
      expect(low).toBeLessThan(hazardRatio);
      expect(high).toBeGreaterThan(hazardRatio);
    }
    expect(model!.measures.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  });

  it('names the place, its neighbours, its testing and its crop area as the reason', () => {
    const hectares = front().places.map((place) =>
      place === 'r3c2' ? 12_000 : place === 'r5c2' ? null : 500,
    );
    const { places } = lookNext(front(8, 4, { exposure: { crop: 'sorghum', hectares } }));
    const reasonOf = (key: string) => places.find(({ place }) => place === key)!.reason;
    expect(reasonOf('r3c2')).toBe(
      '3 of its 4 neighbours found; 4 tested without a find, last in 2023; 12,000 ha of sorghum',
    );
    expect(reasonOf('r5c2')).toContain('area of sorghum not known');
    expect(reasonOf('r4c6')).toMatch(/^none of its 4 neighbours found, nearest find \d+ away; /);
  });

  it('says it in a sentence, with how many finds the head of the list would bring', () => {
    const names = { species: () => 'Kochia', place: (_: string, key: string) => `${key} County` };
    const { sentence, places } = lookNext(front(8, 4, { names }));
    const expected = places.slice(0, 10).reduce((sum, { chance }) => sum + chance!, 0);
    expect(sentence).toContain('Kochia, group 9, 2024: a first find is most to be expected in ');
    expect(sentence).toContain(`${places[0]!.place} County`);
    expect(sentence).toContain(
      `If 4 populations were screened from each of the 10 counties at the head of the list, about ${Math.round(expected)} would be new finds.`,
    );
  });

  it('doubts its order where new finds were not shown to come near earlier ones', () => {
    // Invented: each place is found in each season with a chance of an eighth, wherever it lies.
    const random = new Random(14);
    const strewn = squareLand(6, [2020, 2021, 2022, 2023], () => [Number(random.uniform() < 1 / 8), 1]);
    const found = lookNext(strewn);
    expect(found.order).toBe('hazard');
    expect(found.model!.p).toBeGreaterThan(0.05);
    expect(found.sentence).toMatch(
      /have not been shown to come near earlier ones \(p = \d\.\d+\), so the order may be little better than chance/,
    );
  });

  it('puts a never tested place before a like one with a clean record, and counts clean tests by what they let expect', () => {
    const seasons = [2020, 2021, 2022, 2023];
    const land = (tests: number) =>
      squareLand(8, seasons, (row, column, t) => {
        const [resistant, tested] = [Number(column < t && row !== 3 && row !== 6), 1];
        return row === 3 && column === 2
          ? [0, tests]
          : row === 6 && column === 2
            ? [0, 1]
            : [resistant, tested];
      });
    const of = (tests: number) => lookNext(land(tests)).places.find(({ place }) => place === 'r3c2')!;
    expect(of(0)).toMatchObject({ lackOfTesting: 1, tested: 0, lastTested: null });
    expect(of(0).chance).toBe(of(0).chanceByNearness);
    expect(of(2).chance!).toBeLessThan(of(2).chanceByNearness!);
    expect(of(2).lackOfTesting).toBeGreaterThan(of(9).lackOfTesting);
    expect(of(0).reason).toContain('never tested');
    expect(of(1).reason).toContain('4 tested without a find, last in 2023');
  });

  it('promises more where more populations are sent, and never another order of hazards', () => {
    const [few, many] = [
      lookNext(front(8, 4, { populations: 1 })),
      lookNext(front(8, 4, { populations: 9 })),
    ];
    expect(placesOf(front(8, 4, { populations: 1 }))).toEqual(placesOf(front(8, 4, { populations: 9 })));
    few.places.forEach(({ chance }, i) => {
      expect(many.places[i]!.chance!).toBeGreaterThanOrEqual(chance!);
      expect(many.places[i]!.chance!).toBeCloseTo(1 - (1 - chance!) ** 9, 12);
    });
    expect(few.sentence).toContain('If 1 population was screened from each');
  });

  it('multiplies by crop area over its mean, takes an unknown area for the mean and puts none at the end', () => {
    const plain = lookNext(front());
    const keys = plain.places.map(({ place }) => place);
    const hectares = front().places.map((place) =>
      place === keys[0] ? 0 : place === keys[1] ? null : place === keys[9] ? 90_000 : 1000,
    );
    const { places } = lookNext(front(8, 4, { exposure: { crop: 'corn', hectares } }));
    expect(places[0]!.place).toBe(keys[9]);
    expect(places.at(-1)!.place).toBe(keys[0]);
    expect(places.at(-1)).toMatchObject({ hectares: 0, relativeArea: 0, priority: 0 });
    const unknown = places.find(({ place }) => place === keys[1])!;
    expect(unknown).toMatchObject({ hectares: null, relativeArea: null, priority: unknown.chance });
    const told = places.flatMap(({ relativeArea }) => relativeArea ?? []);
    expect(told.reduce((sum, area) => sum + area, 0) / told.length).toBeCloseTo(1, 12);
    const twice = hectares.map((area) => (area === null ? null : 2 * area));
    expect(placesOf(front(8, 4, { exposure: { crop: 'corn', hectares: twice } }))).toEqual(
      places.map(({ place }) => place),
    );
  });

  it('takes finds from before the seasons for found: not listed, and near to what lies beside them', () => {
    // Invented: nothing is found in the seasons counted but one place in the far corner.
    const input = squareLand(5, [2020, 2021], (row, column, t) => [Number(t === 1 && row + column === 8), 1]);
    const { places, order } = lookNext({ ...input, foundBefore: ['r0c0', 'r0c2'] });
    expect(order).toBe('found neighbours');
    expect(places.map(({ place }) => place)).not.toContain('r0c0');
    expect(places[0]).toMatchObject({ place: 'r0c1', foundNeighbours: 2, nearestFind: 10 });
    const spread = front();
    const before = lookNext({ ...spread, foundBefore: ['r4c7'] });
    const chanceOf = (found: ReturnType<typeof lookNext>) =>
      found.places.find(({ place }) => place === 'r4c6')!.chance!;
    expect(chanceOf(before)).toBeGreaterThan(chanceOf(lookNext(spread)));
    expect(() => lookNext({ ...spread, foundBefore: ['elsewhere'] })).toThrow(
      /lies in elsewhere, which is none/,
    );
  });

  it('says that there is no first find to look for where all is found', () => {
    const all = squareLand(2, [2020, 2021], (_, __, t) => [t, 1]);
    expect(lookNext(all)).toMatchObject({
      places: [],
      sentence: expect.stringContaining('it was found in all counties'),
    });
  });
});

describe('without a model', () => {
  const refused = (input: LookNextInput) => {
    const { order, noModel, model, places, sentence } = lookNext(input);
    expect(model).toBeNull();
    for (const place of places) {
      expect(place).toMatchObject({
        chance: null,
        low: null,
        high: null,
        chanceByNearness: null,
        priority: null,
      });
    }
    expect(sentence).toContain(
      `not enough to say where a first find is most to be expected: ${noModel!.message}. `,
    );
    expect(sentence).toContain('a rule of thumb and no estimate');
    return { order, reason: noModel!.reason, first: places[0]!, places };
  };
  const seasons = [2020, 2021, 2022];

  it('one season: most found neighbours first, then least tested', () => {
    const { order, reason, places } = refused(
      squareLand(3, [2020], (row, column) => [Number(row + column === 0), row === 0 ? 2 : 1]),
    );
    expect({ order, reason }).toEqual({ order: 'found neighbours', reason: 'one season' });
    expect(places.slice(0, 2).map(({ place }) => place)).toEqual(['r1c0', 'r0c1']);
  });

  it('nothing found, or nothing tested: least tested first', () => {
    const clean = squareLand(3, seasons, (row, column) => [0, row === 1 && column === 1 ? 0 : 1]);
    expect(refused(clean)).toMatchObject({
      order: 'lack of testing',
      reason: 'nothing found',
      first: { place: 'r1c1' },
    });
    expect(refused(clean).first.reason).toBe('nothing found anywhere; never tested');
    expect(refused(squareLand(3, seasons, () => [0, 0]))).toMatchObject({ reason: 'nothing found' });
  });

  it('one find after a clean record, or all finds at the first test', () => {
    const one = squareLand(3, seasons, (row, column, t) => [Number(t === 1 && row + column === 0), 1]);
    expect(refused(one)).toMatchObject({ order: 'found neighbours', reason: 'too few finds' });
    expect(refused(one).first.foundNeighbours).toBe(1);
    const atFirst = squareLand(4, seasons, (row, _, t) => [Number(t === 0 && row < 2), 1]);
    expect(refused(atFirst)).toMatchObject({ reason: 'too few finds' });
  });

  it('all finds after a clean record in one season, and none near them since', () => {
    const { order, reason } = refused(squareLand(4, seasons, (row, _, t) => [Number(t === 1 && row < 2), 1]));
    expect({ order, reason }).toEqual({ order: 'found neighbours', reason: 'no end' });
  });

  it('new finds far from earlier ones', () => {
    // Invented: two rows are found at once; then one place beside them and four of the row that lies farthest away.
    const away = squareLand(8, seasons, (row, column, t) => [
      Number(row < 2 || (t > 0 && ((row === 7 && column % 2 === 0) || (row === 2 && column === 4)))),
      1,
    ]);
    expect(refused(away)).toMatchObject({ order: 'found neighbours', reason: 'not nearer to finds' });
  });

  it('an effect without end', () => {
    // Invented: a front with no straggler, of which only neighbours are known: whoever has a found one is new, nobody else.
    const exact = squareLand(6, [2020, 2021, 2022, 2023], (_, column, t) => [Number(column <= t), 1]);
    const here = new Float64Array(36);
    const { order, reason, first } = refused({ ...exact, points: { x: here, y: here, metric: 'plane' } });
    expect({ order, reason }).toEqual({ order: 'found neighbours', reason: 'no end' });
    expect(first.place).toMatch(/c4$/);
  });

  it('keeps places without the crop at the end', () => {
    const input = squareLand(3, [2020], (row, column) => [Number(row + column === 0), 1], {
      exposure: { crop: 'corn', hectares: [9, 0, 9, 9, 9, 9, 9, 9, 9] },
    });
    expect(refused(input).places.at(-1)!.place).toBe('r0c1');
  });
});

describe('a reason', () => {
  it('says of an only neighbour that it is one', () => {
    const chain = (found: number) => ({
      ...squareLand(2, [2020, 2021], (row, column, t) => [Number(t === 1 && 2 * row + column === found), 1]),
      weights: buildWeights([[1], [0, 2], [1, 3], [2]], 'binary'),
    });
    const of = (found: number) => lookNext(chain(found)).places.find(({ place }) => place === 'r0c0')!.reason;
    expect(of(1)).toContain('its only neighbour found; ');
    expect(of(3)).toContain('its only neighbour not found, nearest find 14 away; ');
  });
});

describe('strange input', () => {
  it('of a gap of years, of a place tested once, of places without neighbours is answered', () => {
    const gap = squareLand(8, [1999, 2010, 2022, 2023], (row, column, t) => [
      Number(column < t && row % 3 > 0 && row < 7),
      row === 7 && t > 0 ? 0 : 1,
    ]);
    const found = lookNext({ ...gap, season: 2040 });
    expect(found.order).toBe('hazard');
    expect(found.places.find(({ place }) => place === 'r7c5')!.reason).toContain(
      '1 tested without a find, in 1999',
    );
    const alone = {
      ...front(),
      weights: buildWeights(
        Array.from({ length: 64 }, () => []),
        'binary',
      ),
    };
    expect(lookNext(alone)).toMatchObject({
      order: 'found neighbours',
      noModel: { reason: 'nothing to compare' },
    });
    expect(lookNext(alone).places[0]!.reason).toContain('no neighbour in the region, nearest find ');
    const onePoint = {
      ...front(),
      points: { x: new Float64Array(64), y: new Float64Array(64), metric: 'plane' as const },
    };
    expect(lookNext(onePoint).model!.measures.map(({ name }) => name)).toEqual([
      'number of neighbours found',
      'share of neighbours found',
    ]);
  });

  it('of other lengths, of a place twice, of no season to come, of no number is refused', () => {
    const input = front();
    const refuse = (over: Partial<LookNextInput>) =>
      expect(() => lookNext({ ...input, ...over })).toThrow(
        expect.objectContaining({ name: 'StatsError', code: 'bad argument' }),
      );
    refuse({ places: input.places.slice(1) });
    refuse({ places: input.places.map(() => '46102') });
    refuse({ weights: buildWeights([[1], [0]], 'binary') });
    refuse({ season: 2023 });
    refuse({ season: 2023.5 });
    refuse({ populations: 0 });
    refuse({ populations: 2.5 });
    refuse({ exposure: { crop: 'corn', hectares: [1] } });
    refuse({ exposure: { crop: 'corn', hectares: input.places.map(() => -1) } });
    refuse({ exposure: { crop: 'corn', hectares: input.places.map(() => Number.NaN) } });
    refuse({ points: { ...input.points, x: input.places.map(() => Number.NaN) } });
    const wrong = { ...input.counts, resistant: input.counts.tested.map((tested) => tested + 1) };
    expect(() => lookNext({ ...input, counts: wrong })).toThrow(
      expect.objectContaining({ code: 'bad count' }),
    );
    expect(lookNext({ ...squareLand(1, [], () => [0, 0]) })).toMatchObject({
      noModel: { reason: 'nothing found' },
    });
  });
});

describe('any land', () => {
  const land = inventedCounts.map(({ rows, seasons, lists, x, y, order }) => {
    const n = order.length;
    const input: LookNextInput = {
      ...{ species: 'ABCDE', group: 9, placeKind: 'county', season: 2100 },
      places: order.map((_, i) => `p${i}`),
      counts: {
        ...{ seasons, places: n },
        tested: Int32Array.from(rows.flat(), ([, tested]) => tested),
        resistant: Int32Array.from(rows.flat(), ([resistant]) => resistant),
      },
      weights: buildWeights(lists, 'binary'),
      points: { x, y, metric: 'plane' },
    };
    return { input, lists, order };
  });

  it('gives chances of 0 … 1 inside their intervals, and a rising rank never a higher priority', () => {
    fc.assert(
      fc.property(land, ({ input }) => {
        const { places, order, model, sentence } = lookNext(input);
        expect(sentence).not.toMatch(/NaN|undefined|null|Infinity/);
        expect(model !== null).toBe(order === 'hazard');
        places.forEach(({ chance, low, high, chanceByNearness, lackOfTesting, priority, reason }, i) => {
          expect(reason).not.toMatch(/NaN|undefined|null|Infinity/);
          expect(lackOfTesting).toBeGreaterThan(0);
          expect(lackOfTesting).toBeLessThanOrEqual(1);
          if (chance === null) return;
          expect(low!).toBeGreaterThanOrEqual(0);
          expect(low!).toBeLessThanOrEqual(chance);
          expect(chance).toBeLessThanOrEqual(high!);
          expect(high!).toBeLessThanOrEqual(1);
          expect(chance).toBeLessThanOrEqual(chanceByNearness!);
          expect(priority!).toBeLessThanOrEqual(places[Math.max(0, i - 1)]!.priority!);
        });
      }),
      { numRuns: 300 },
    );
  });

  it('is answered the same whatever the order of its places', () => {
    fc.assert(
      fc.property(land, ({ input, lists, order }) => {
        const { counts, points, places } = input;
        const n = counts.places;
        const moved = (values: Int32Array) =>
          Int32Array.from(values, (_, cell) => values[Math.floor(cell / n) * n + order[cell % n]!]!);
        const other = lookNext({
          ...input,
          places: order.map((old) => places[old]!),
          counts: { ...counts, tested: moved(counts.tested), resistant: moved(counts.resistant) },
          weights: buildWeights(relabel(lists, order), 'binary'),
          points: { ...points, x: order.map((old) => points.x[old]!), y: order.map((old) => points.y[old]!) },
        });
        const found = lookNext(input);
        expect(other.order).toBe(found.order);
        const byKey = new Map(other.places.map((place) => [place.place, place]));
        for (const place of found.places) {
          const twin = byKey.get(place.place)!;
          expect(twin.reason).toBe(place.reason);
          if (place.chance !== null) expect(twin.chance!).toBeCloseTo(place.chance, 6);
        }
      }),
      { numRuns: 200 },
    );
  });
});
