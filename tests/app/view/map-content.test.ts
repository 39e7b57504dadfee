import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clusterPatterns } from '@/app/view/cluster-patterns';
import { type MapInput, mapContent, UNCERTAIN } from '@/app/view/map-content';
import { mapFrames } from '@/app/view/map-frames';
import { placeNumbers } from '@/app/view/place-numbers';
import { firstFind, recorder, statusUntil } from '@/app/view/record';
import { indexCells, isSeasonShown } from '@/app/view/released';
import { LAYERS, type Layer, type View } from '@/app/view/view';
import { decodeFill, encodeFill } from '@/lib/figures/fill-code';
import { TONES } from '@/lib/figures/looks';
import type { Clustering, FirstDetection, SpeedOfSpread } from '@/lib/findings/types';
import { inventedRegion, inventedRelease } from '../invented-release';

// The invented release: its cells and the findings that were computed from them.
const region = inventedRegion();
const { draft } = inventedRelease();
const head = { ...draft.head, number: 1, files: [] };
const window = { first: 2022, last: 2024 };

function input(over: Partial<View> = {}): MapInput {
  const view: View = {
    ...{ species: 'KCHSC', group: 9, window, by: 'county', layer: 'share', place: 'region', release: 1 },
    ...over,
  };
  const ofPair = ({ species, group }: { species: string; group: number }) =>
    species === view.species && group === view.group;
  const cells = indexCells(draft.cube.cells.filter(ofPair));
  return {
    ...{ head, region, cells, view },
    findings: draft.findings.filter(ofPair),
    numbers: (place, period) =>
      period !== 'all' && !isSeasonShown(head, cells, place, period)
        ? { place, status: 'no public information', estimate: null }
        : placeNumbers(cells, [], period, place),
  };
}

describe('each layer of the map', () => {
  it('covers every county once, alone or in its area', () => {
    for (const layer of LAYERS)
      for (const by of ['county', 'district', 'state'] as const) {
        const map = mapContent(input({ layer, by }));
        const keys = map.places.flatMap(({ numbers }) => numbers.place.key.split('+'));
        const all = map.grain === 'county' ? region.counties.map(({ fips }) => fips) : null;
        expect(new Set(keys).size).toBe(keys.length);
        if (all) expect([...keys].sort()).toEqual(all);
      }
  });

  it('shows nothing of a place without public information but that', () => {
    for (const layer of LAYERS) {
      const { places } = mapContent(input({ layer }));
      const hidden = places.filter(({ numbers }) => numbers.status === 'no public information');
      for (const { fill, numbers, pattern, first } of hidden) {
        expect({ fill, estimate: numbers.estimate, first }).toEqual({
          fill: { tone: 'hidden', faint: false },
          estimate: null,
          first: null,
        });
        if (layer === 'share') expect(pattern).toBeNull();
      }
    }
  });

  it('draws a share in lighter ink exactly where its interval spans more than half of the scale', () => {
    const { places } = mapContent(input());
    const shown = places.flatMap(({ numbers: { estimate }, fill }) => (estimate ? [{ estimate, fill }] : []));
    expect(shown.length).toBeGreaterThan(5);
    for (const { estimate, fill } of shown) expect(fill.faint).toBe(estimate.high - estimate.low > UNCERTAIN);
  });

  it('takes the first find of a district from the same season as the finding of the release does', () => {
    const { findings } = input();
    const detections = findings.filter(
      (one): one is FirstDetection => one.kind === 'first detection' && one.placeKind === 'district',
    );
    expect(detections.length).toBeGreaterThan(5);
    const { places } = mapContent(input({ layer: 'found', by: 'district' }));
    const first = new Map(places.map((place) => [place.numbers.place.key, place.first]));
    for (const { place, period, how } of detections) expect(first.get(place)).toMatchObject({ period, how });
    expect(places.filter(({ first: found }) => found !== null)).toHaveLength(detections.length);
  });

  it('never takes back a find as the seasons go on', () => {
    const record = recorder({ head, region, cells: input().cells, pair: input().view });
    fc.assert(
      fc.property(fc.constantFrom(...region.counties), fc.constantFrom(2021, 2024), (county, until) => {
        const place = {
          ...{ kind: 'county' as const, key: county.fips, name: county.fullName, fullName: county.fullName },
          ...{ state: county.state, district: county.district },
        };
        const entries = record(place);
        const found = firstFind(entries, until);
        if (found) expect(firstFind(entries, until + 1)).toEqual(found);
        expect(statusUntil(entries, until) === 'confirmed').toBe(found !== null);
      }),
    );
  });

  it('tells of no pattern where the verdict of the map does not pass', () => {
    const found = input().findings.find((one): one is Clustering => one.kind === 'clustering')!;
    const places = mapContent(input()).places.map(({ numbers }) => numbers);
    for (const verdict of ['no sign', 'too little tested'] as const)
      expect(clusterPatterns({ ...found, verdict }, places).size).toBe(0);
    const silent = mapContent({
      ...input({ layer: 'clusters' }),
      findings: [{ ...found, period: window, verdict: 'no sign' }],
    });
    expect(silent.silent).toBe('no clusters');
    expect(silent.places.every(({ pattern }) => pattern === null)).toBe(true);
    expect(mapContent({ ...input({ layer: 'clusters' }), findings: [] }).silent).toBe('no verdict');
  });

  it('names the four patterns by the place and its neighbours beside the whole map', () => {
    // Invented: 40 of 80 in all. Each place has 20 of its own, and as many around it.
    const places = mapContent(input())
      .places.slice(0, 4)
      .map(({ numbers }) => numbers.place);
    const own = [18, 18, 2, 2];
    const around = [18, 2, 18, 2];
    const numbers = places.map((place, i) => ({
      place,
      status: 'confirmed' as const,
      estimate: { tested: 20, resistant: own[i]!, share: own[i]! / 20, low: 0, high: 1 },
    }));
    const found = {
      verdict: 'lie together',
      local: places.map(({ key }, i) => ({
        ...{ place: key, pattern: i === 3 ? 'less around here' : 'more around here' },
        ...{ tested: 40, resistant: own[i]! + around[i]!, expected: 20, p: 0.001, adjustedP: 0.01 },
      })),
    } as unknown as Clustering;
    expect([...clusterPatterns(found, numbers).values()]).toEqual([
      'raised, neighbours raised too',
      'stands out alone',
      'lower than around it',
      'lower, neighbours lower',
    ]);
  });

  it('draws the front where a speed is told, as far as it had come by each window, and none where it is not', () => {
    const speed: SpeedOfSpread = {
      ...{ kind: 'speed', species: 'KCHSC', group: 9, from: 2019, to: 2024, grain: 'district' },
      ...{ speed: 30, low: 20, high: 40, model: 'arrival', otherSpeed: null, direction: null, jumps: [] },
      ...{ newFinds: 9, sentence: 'Invented.', reason: null },
      origins: [{ lon: -99, lat: 40, place: '31145', kilometres: 3, since: 2020 }],
    };
    const of = (over: Partial<SpeedOfSpread>, view: Partial<View> = {}) =>
      mapContent({ ...input({ layer: 'spread', ...view }), findings: [{ ...speed, ...over }] });
    expect(of({}).grain).toBe('district');
    expect(of({}).front!.origins[0]!.rings).toEqual([
      { label: '2021', kilometres: 30 },
      { label: '2024', kilometres: 120 },
    ]);
    expect(of({}, { window: { first: 2019, last: 2021 } }).front!.origins[0]!.rings).toHaveLength(1);
    expect(of({ speed: null, low: null, high: null }).front).toBeNull();
  });
});

describe('the frames of a map', () => {
  it('are its seasons where the grain has them and its windows where not, the one under way marked', () => {
    const keys = (over: Partial<View>) => mapFrames(input(over)).map(({ key }) => key);
    expect(keys({})).toEqual(['2019-2021', '2022-2024']);
    expect(keys({ by: 'district' })).toEqual(['2019', '2020', '2021', '2022', '2023', '2024']);
    expect(keys({ by: 'state' }).at(-1)).toBe('2025');
    expect(mapFrames(input({ by: 'state' })).filter(({ unfinished }) => unfinished)).toHaveLength(1);
    expect(keys({ by: 'district', layer: 'clusters' })).toEqual(['2019-2021', '2022-2024']);
  });

  it('fill each county as the map of that season fills the place that holds it', () => {
    for (const layer of ['share', 'found', 'effort'] satisfies Layer[]) {
      const frames = mapFrames(input({ layer }));
      const last = mapContent(input({ layer }));
      const fills = new Map(
        last.places.flatMap(({ numbers, fill }) => numbers.place.key.split('+').map((key) => [key, fill])),
      );
      region.counties.forEach(({ fips }, i) => {
        expect(decodeFill(frames.at(-1)!.fills[i]!)).toEqual(fills.get(fips));
      });
    }
  });

  it('hold every fill in one sign', () => {
    const fills = TONES.flatMap((tone) => [true, false].map((faint) => ({ tone, faint })));
    const signs = fills.map(encodeFill);
    expect(signs.join('')).toHaveLength(fills.length);
    expect(new Set(signs).size).toBe(fills.length);
    expect(signs.map(decodeFill)).toEqual(fills);
    expect(() => decodeFill('f')).toThrow(RangeError);
  });
});
