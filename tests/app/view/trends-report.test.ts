import { describe, expect, it } from 'vitest';
import { speechIn } from '@/app/messages/texts';
import { type CropPanel, cropPanels, type StateCrops } from '@/app/view/crop-panels';
import { findPlace, regionPlace } from '@/app/view/places';
import { type TrendsInput, trendsReport } from '@/app/view/trends-report';
import { pairKey, parseTrendsView, trendsPath } from '@/app/view/trends-view';
import type { CropCell } from '@/lib/disclosure/types';
import type { MatchedChange } from '@/lib/findings/types';
import type { ReleaseHead } from '@/lib/release/types';
import { ALL_CROPS, OTHER_CROP } from '@/lib/vocabulary/crops';
import { inventedRegion, inventedRelease } from '../invented-release';

// The invented release of the pages' tests.
const region = inventedRegion();
const { draft } = inventedRelease();
const head: ReleaseHead = { ...draft.head, number: 1, files: [] };
const pair = { species: 'KCHSC', group: 27 };
const isOwn = ({ species, group }: { species: string; group: number }) =>
  species === pair.species && group === pair.group;
const cells = draft.cube.cells.filter(isOwn);
const input: TrendsInput = {
  ...{ head, newer: null, errata: [], region, pair, misfits: [], cells, multipleCells: [], cropCells: [] },
  place: regionPlace(region),
  wide: draft.cube.cells.filter(({ placeKind }) => placeKind === 'region'),
  findings: draft.findings.filter(isOwn),
  changes: draft.findings.filter((one): one is MatchedChange => one.kind === 'matched change'),
};
const report = trendsReport(input);

describe('trends', () => {
  it('hold each season once, the one under way for region and states only', () => {
    expect(report.points.map(({ season }) => season)).toEqual([...head.closedSeasons, head.openSeason]);
    expect(report.effort.map(({ season }) => season)).toEqual(report.points.map(({ season }) => season));
    for (const { points } of report.parts.flatMap(({ districts }) => districts))
      expect(points.map(({ season }) => season)).toEqual(head.closedSeasons);
    for (const { points } of report.overview)
      expect(points.map(({ season }) => season)).toEqual([...head.closedSeasons, head.openSeason]);
  });

  it('tell what was received only where a release does, and never less than was screened', () => {
    for (const { received, tested, withheld } of report.effort) {
      if (withheld) expect([received, tested]).toEqual([null, 0]);
      else expect(received).toBeGreaterThanOrEqual(tested);
    }
    const district = trendsReport({ ...input, place: findPlace(region, 'KS-C') });
    expect(district.effort.map(({ received }) => received)).toEqual(head.closedSeasons.map(() => null));
  });

  it('count each county once in each window, with the look of the area that it is counted in', () => {
    expect(report.found.map(({ window }) => window)).toEqual(head.windows);
    for (const { counties, districts } of report.found) {
      expect(Object.values(counties).reduce((sum, value) => sum + value)).toBe(region.counties.length);
      expect(Object.values(districts).reduce((sum, value) => sum + value)).toBe(region.districts.length);
    }
    const area = { placeKind: 'area' as const, period: head.windows[1]! };
    const own = cells.filter(
      (cell) => cell.placeKind === 'area' && cell.period.first === 2022 && (cell.counts?.resistant ?? 0) > 0,
    );
    expect(own.length, `no area of ${area.period.first} is confirmed`).toBeGreaterThan(0);
    const single = cells.filter(
      (cell) =>
        cell.placeKind === 'county' && cell.period.first === 2022 && (cell.counts?.resistant ?? 0) > 0,
    ).length;
    const inAreas = own.reduce((sum, { place }) => sum + place.split('+').length, 0);
    expect(report.found[1]!.counties.confirmed).toBe(single + inAreas);
  });

  it('compare as many places as the finding did', () => {
    expect(report.change).not.toBeNull();
    expect(report.matched).toHaveLength(report.change!.places);
    for (const { from, to } of report.matched) expect(Math.min(from.tested, to.tested)).toBeGreaterThan(0);
  });

  it('give panels of the districts of a chosen state only', () => {
    const inKansas = trendsReport({ ...input, place: findPlace(region, 'KS') });
    expect(inKansas.parts.map(({ state }) => state.place.key)).toEqual(['KS']);
    expect(inKansas.parts[0]!.districts.length).toBeGreaterThan(0);
    expect(inKansas.parts[0]!.districts.every(({ place }) => place.state === 'KS')).toBe(true);
    expect(trendsReport({ ...input, place: findPlace(region, 'KS-C') }).parts).toEqual(inKansas.parts);
    expect(report.parts.flatMap(({ districts }) => districts)).toHaveLength(region.districts.length);
  });

  it('name each state by what its districts show in the newest window, each district once', () => {
    const window = head.windows.at(-1)!;
    for (const part of report.parts) {
      const shown = part.districts.map(({ windows }) => windows.find(({ first }) => first === window.first)!);
      expect(part.looks['no public information']).toBe(shown.filter(({ withheld }) => withheld).length);
      expect(part.looks.confirmed).toBe(shown.filter(({ resistant }) => resistant > 0).length);
      for (const language of ['en', 'es'] as const) {
        const words = speechIn(language).texts.trends.panels.state(part, window);
        const [, ...told] = [...words.replace('2022–2024', '').matchAll(/\d+/g)].map(([n]) => Number(n));
        expect(told.reduce((sum, value) => sum + value)).toBe(part.districts.length);
      }
    }
  });
});

describe('crops', () => {
  const crop = (name: string, season: number, counts: [number, number] | null, state = 'KS'): CropCell => ({
    ...{ state, season, ...pair, crop: name, status: counts ? 'published' : 'withheld' },
    counts: counts && { tested: counts[0], resistant: counts[1], someSurvivors: 0 },
  });
  const panels = (cells: CropCell[], only: string | null = null) => cropPanels(cells, region, head, only);

  it('stand by state, most screened first, fields without a known crop last, each with every closed season', () => {
    const [kansas, nebraska, ...others] = panels([
      crop(OTHER_CROP, 2023, [90, 9]),
      crop('corn', 2023, [10, 4]),
      crop('wheat', 2022, [12, 1]),
      crop('wheat', 2024, null),
      crop('fallow', 2024, null, 'NE'),
    ]);
    expect(others).toEqual([]);
    expect([kansas!.state.key, nebraska!.state.key]).toEqual(['KS', 'NE']);
    expect(kansas!.crops.map(({ crop: name }) => name)).toEqual(['wheat', 'corn', OTHER_CROP]);
    const [{ points }] = kansas!.crops as [CropPanel];
    expect(points.map(({ season }) => season)).toEqual(head.closedSeasons);
    expect(points.map(({ season, withheld, tested }) => [season, withheld, tested])).toEqual(
      head.closedSeasons.map((season) => [season, season === 2024, season === 2022 ? 12 : 0]),
    );
    // 95 % Wilson interval of 1 of 12, computed by its formula (Wilson 1927).
    const { low, high } = points.find(({ season }) => season === 2022)!;
    expect([low, high].map((value) => value.toFixed(3))).toEqual(['0.015', '0.354']);
  });

  it('are those of the chosen state alone, also where a district of it is chosen', () => {
    const cells = [crop('corn', 2023, [10, 4]), crop('corn', 2023, [10, 4], 'NE')];
    expect(panels(cells, 'NE').map(({ state }) => state.key)).toEqual(['NE']);
    const district = trendsReport({ ...input, cropCells: cells, place: findPlace(region, 'KS-C') });
    expect(district.crops.map(({ state }) => state.key)).toEqual(['KS']);
    expect(report.crops).toEqual([]);
  });

  it('are told by their newest public season, in both languages, every crop of the list by a name', () => {
    const [{ crops }] = panels([
      crop('corn', 2022, [20, 4]),
      crop('corn', 2023, [40, 10]),
      crop('corn', 2024, null),
    ]) as [StateCrops];
    for (const language of ['en', 'es'] as const) {
      const { texts } = speechIn(language);
      expect(texts.trends.crops.newest(crops[0]!).replaceAll('\u00a0', ' ')).toMatch(
        /^2023: 10 (of|de) 40, 25 % \(14–40 %\)$/,
      );
    }
    const { cropName } = speechIn('es').texts;
    expect(ALL_CROPS.filter((name) => cropName(name) === name)).toEqual(['alfalfa', 'canola']);
  });
});

describe('the address of trends', () => {
  it('leads back to the same view', () => {
    for (const place of ['region', 'KS', 'KS-C']) {
      const query = Object.fromEntries(new URLSearchParams(trendsPath(pair, { place }).split('?')[1]));
      const view = parseTrendsView(query, head, region);
      expect([view.pair, view.place.key, view.misfits]).toEqual([pair, place, []]);
    }
    expect(parseTrendsView({ pair: pairKey(pair) }, head, region).pair).toEqual(pair);
  });

  it('of a county leads to the district that holds it', () => {
    expect(parseTrendsView({ place: '20063' }, head, region).place.key).toMatch(/^KS-/);
  });

  it('that asks for what is not there says so', () => {
    const {
      misfits,
      place,
      pair: shown,
    } = parseTrendsView({ pair: 'ZZZZZ-9', place: 'nowhere' }, head, region);
    expect(misfits.map(({ parameter }) => parameter)).toEqual(expect.arrayContaining(['species', 'place']));
    expect([place.key, shown]).toEqual(['region', head.leading]);
  });
});

describe('the sentences of trends', () => {
  const point = (season: number, tested: number, resistant: number, withheld = false) => ({
    ...{ season, tested, resistant, withheld, low: 0.1, high: 0.6 },
    unfinished: false,
  });
  const said = (points: ReturnType<typeof point>[]) =>
    speechIn('en')
      .texts.trends.headline({ points, pair, place: regionPlace(region) })
      .map((sentence) => sentence.replaceAll('\u00a0', ' '));

  it('set the last public season beside the first, and count what is withheld', () => {
    expect(said([point(2022, 20, 5), point(2023, 0, 0, true), point(2024, 40, 20)])).toEqual([
      '2024: 20 of 40 screened populations were resistant: 50 % (95 % interval 10–60 %).',
      'In 2022 it was 25 % of 20 (95 % interval 10–60 %).',
      '1 season is withheld.',
    ]);
  });

  it('say that nothing is public, or that nothing was screened', () => {
    expect(said([point(2022, 0, 0, true)])[0]).toMatch(/^No single season .* is public/);
    expect(said([point(2022, 0, 0)])[0]).toMatch(/^No kochia from .* was screened/);
  });

  it('have as many numbers in Spanish as in English', () => {
    for (const language of ['en', 'es'] as const) {
      const { trends } = speechIn(language).texts;
      const words = trends.ratioWords({
        ...report.change!,
        oddsRatio: 2.345,
        low: 0.5,
        high: Number.POSITIVE_INFINITY,
      });
      expect(words).toMatch(/^2\.3 \(0\.50 (to|a) ∞\)$/);
      expect(
        trends.effortWords({ season: 2024, tested: 12, received: 20, withheld: false, unfinished: false }),
      ).toMatch(/^2024: 12 .* 20 /);
    }
  });
});
