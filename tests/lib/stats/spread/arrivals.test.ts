import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StatsError } from '@/lib/stats/errors';
import { greatCircle } from '@/lib/stats/scan/great-circle';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { atRisk } from '@/lib/stats/spread/at-risk';
import { foundNeighbours } from '@/lib/stats/spread/found-neighbours';
import { nearestFound } from '@/lib/stats/spread/nearest-found';
import { ARRIVAL } from '@/lib/stats/spread/types';
import { buildWeights } from '@/lib/stats/weights';
import { counted, inventedCounts } from './invented-counts';

describe('arrivals', () => {
  it('only a find after a clean season is new; a find at first test is only newly seen', () => {
    // Invented: never tested; clean; found at first test; new in the third season after a season without tests.
    const known = arrivals(
      counted(
        [
          [
            [0, 0],
            [0, 2],
            [1, 1],
            [0, 3],
          ],
          [
            [0, 0],
            [0, 1],
            [0, 4],
            [0, 0],
          ],
          [
            [0, 0],
            [0, 0],
            [2, 2],
            [1, 5],
          ],
        ],
        [2015, 2016, 2019],
      ),
    );
    expect([...known.kind]).toEqual([
      ARRIVAL.neverTested,
      ARRIVAL.neverFound,
      ARRIVAL.foundAtFirstTest,
      ARRIVAL.newAfterClean,
    ]);
    expect([...known.firstFound]).toEqual([-1, -1, 0, 2]);
    expect([...known.lastClean]).toEqual([-1, 1, -1, 0]);
    expect([...known.firstTested]).toEqual([-1, 0, 0, 0]);
  });

  it('are what each place’s own history, read from its start, says', () => {
    fc.assert(
      fc.property(inventedCounts, ({ rows, seasons }) => {
        const known = arrivals(counted(rows, seasons));
        rows[0]!.forEach((_, place) => {
          const tests = rows.flatMap((row, t) =>
            row[place]![1] > 0 ? [{ t, found: row[place]![0] > 0 }] : [],
          );
          const first = tests.findIndex(({ found }) => found);
          expect(known.firstFound[place]).toBe(first === -1 ? -1 : tests[first]!.t);
          expect(known.firstTested[place]).toBe(tests[0]?.t ?? -1);
          const clean = first === -1 ? tests : tests.slice(0, first);
          expect(known.lastClean[place]).toBe(clean.at(-1)?.t ?? -1);
        });
      }),
    );
  });

  it.each([
    ['no season', counted([])],
    ['no place', counted([[], []])],
  ])('of %s are empty', (_, counts) => {
    expect(arrivals(counts).kind).toHaveLength(counts.places);
    expect(atRisk(counts).place).toHaveLength(0);
  });

  it.each([
    ['more resistant than tested', counted([[[2, 1]]]), 'bad count'],
    ['a negative count', counted([[[-1, 1]]]), 'bad count'],
    ['seasons that do not rise', counted([[[0, 1]], [[0, 1]]], [2016, 2016]), 'bad argument'],
    ['counts of another length', { ...counted([[[0, 1]]]), places: 2 }, 'bad argument'],
  ])('of %s are refused', (_, counts, code) => {
    expect(() => arrivals(counts)).toThrow(expect.objectContaining({ name: 'StatsError', code }));
  });
});

describe('places at risk', () => {
  it('are tested, tested before, and not found before; each new find after a clean record is among them once', () => {
    fc.assert(
      fc.property(inventedCounts, ({ rows, seasons }) => {
        const counts = counted(rows, seasons);
        const known = arrivals(counts);
        const panel = atRisk(counts, known);
        const seen = new Set(Array.from(panel.place, (place, row) => `${panel.season[row]} ${place}`));
        rows.forEach((row, t) => {
          row.forEach(([, tested], place) => {
            const before = rows.slice(0, t).map((each) => each[place]!);
            const wanted =
              tested > 0 && before.some((each) => each[1] > 0) && before.every((each) => each[0] === 0);
            expect(seen.has(`${t} ${place}`)).toBe(wanted);
          });
        });
        const news = panel.isNew.reduce((sum, each) => sum + each, 0);
        expect(news).toBe(known.kind.filter((each) => each === ARRIVAL.newAfterClean).length);
      }),
    );
  });

  it('there are none in a single season, nor where a place was tested once', () => {
    expect(
      atRisk(
        counted([
          [
            [1, 2],
            [0, 2],
          ],
        ]),
      ).place,
    ).toHaveLength(0);
    expect(
      atRisk(
        counted([
          [
            [0, 2],
            [0, 0],
          ],
          [
            [0, 0],
            [1, 2],
          ],
        ]),
      ).place,
    ).toHaveLength(0);
  });

  it('have as many found neighbours, and are as far from a find, as a search through all pairs says', () => {
    fc.assert(
      fc.property(inventedCounts, fc.constantFrom('plane', 'great circle'), (map, metric) => {
        const counts = counted(map.rows, map.seasons);
        const known = arrivals(counts);
        const panel = atRisk(counts, known);
        const near = foundNeighbours(panel, known, buildWeights(map.lists, 'binary'));
        const away = nearestFound(panel, known, { x: map.x, y: map.y, metric: metric as 'plane' });
        panel.place.forEach((place, row) => {
          const earlier = [...known.firstFound.keys()].filter(
            (i) => known.firstFound[i] !== -1 && known.firstFound[i]! < panel.season[row]!,
          );
          expect(near[row]).toBe(map.lists[place]!.filter((i) => earlier.includes(i)).length);
          const distances = earlier.map((i) =>
            metric === 'plane'
              ? Math.hypot(map.x[i]! - map.x[place]!, map.y[i]! - map.y[place]!)
              : greatCircle(map.x[i]!, map.y[i]!, map.x[place]!, map.y[place]!),
          );
          const least = Math.min(...distances);
          if (Number.isFinite(least)) expect(away[row]).toBeCloseTo(least, 6);
          else expect(away[row]).toBe(Number.POSITIVE_INFINITY);
        });
      }),
    );
  });

  it('are not measured on a map of other places', () => {
    const counts = counted([
      [
        [0, 1],
        [1, 1],
      ],
      [
        [0, 1],
        [0, 1],
      ],
    ]);
    const known = arrivals(counts);
    const panel = atRisk(counts, known);
    expect(() => foundNeighbours(panel, known, buildWeights([[]], 'binary'))).toThrow(StatsError);
    expect(() => nearestFound(panel, known, { x: [0], y: [0], metric: 'plane' })).toThrow(StatsError);
    expect(() => nearestFound(panel, known, { x: [0, 1], y: [0, 91], metric: 'great circle' })).toThrow(
      StatsError,
    );
  });
});
