import { expect, it } from 'vitest';
import { briefingOf, makeBriefing } from '@/lib/briefing/make-briefing';
import type { BriefingNumbers, Counted, GroupNumbers } from '@/lib/briefing/types';
import { regionNames } from '@/lib/findings/names';
import { lookNextSentence } from '@/lib/findings/spread/look-next/sentence';
import type { LookNext } from '@/lib/findings/spread/look-next/types';
import type { Clustering, Finding } from '@/lib/findings/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { commonNameOf } from '@/lib/vocabulary/species';
import type { Group } from '@/lib/vocabulary/terms';
import { inventedRegion } from '../../app/invented-release';
import { readPdf } from '../../support/read-pdf';

// Invented throughout. Everything that a private briefing can tell of two groups is told, in the longest words that there
// are: the weed with the longest name of those that boards ask about, the groups with the longest names, each with a change, a trend, a
// front, first finds of both kinds and an order of places that nearness does not explain; six groups that were tested and
// five crops, each paid for by a board of its own.
const SPECIES = 'AMAPA';
const WINDOW = { first: 2022, last: 2024 };
const SEASONS = Array.from({ length: 13 }, (_, i) => 2013 + i);
const region = inventedRegion();

function counted(tested: number, resistant: number): Counted {
  return { tested, resistant, share: resistant / tested, ...wilsonInterval(resistant, tested) };
}

function lookNext(group: Group): LookNext {
  const found: Omit<LookNext, 'sentence'> = {
    ...{ kind: 'look next', species: SPECIES, group, season: 2025, placeKind: 'county', populations: 4 },
    ...{ order: 'hazard', noModel: null, model: { measures: [], p: 0.9, newFinds: 41, rows: 400 } },
    places: region.counties.slice(0, 30).map(({ fips }) => ({
      ...{ place: fips, chance: 0.75, low: 0.59, high: 0.88, priority: 0.75, chanceByNearness: 0.75 },
      ...{ tested: 0, lastTested: null, lackOfTesting: 1, relativeArea: null, hectares: null },
      ...{ neighbours: 6, foundNeighbours: 5, nearestFind: 40 },
      reason: '5 of its 6 neighbours found; never tested',
    })),
  };
  const names = regionNames(region, commonNameOf);
  return { ...found, sentence: lookNextSentence(found, names) };
}

function findings(group: Group): Finding[] {
  const of = { species: SPECIES, group, sentence: 'Invented.', reason: null } as const;
  const ratio = { oddsRatio: 1.04, low: 0.98, high: 1.1, p: 0.2, grain: 'county', places: 41 } as const;
  const first = (how: 'new after a clean record' | 'found at first test', from: number) =>
    region.counties.slice(from, from + 12).map(({ fips }) => ({
      ...({
        kind: 'first detection',
        species: SPECIES,
        group,
        placeKind: 'county',
        place: fips,
        how,
      } as const),
      ...{ period: { first: 2023, last: 2023 }, lastClean: null, arrival: null, sentence: 'Invented.' },
    }));
  const clustering: Clustering = {
    ...{
      kind: 'clustering',
      species: SPECIES,
      group,
      period: WINDOW,
      grain: 'area',
      verdict: 'lie together',
    },
    ...{
      p: 0.0004,
      tests: 3,
      where: [],
      detectable: null,
      places: 120,
      isolated: 0,
      global: null,
      local: [],
    },
    ...{ strongest: null, sentence: 'Invented.', reason: null },
  };
  return [
    clustering,
    ...first('new after a clean record', 40),
    ...first('found at first test', 80),
    { kind: 'matched change', from: 2023, to: 2024, ...ratio, ...of },
    { kind: 'trend', from: 2013, to: 2024, series: null, ...ratio, ...of },
    {
      ...{ kind: 'speed', from: 2013, to: 2024, grain: 'county', speed: 38, low: 34, high: 42, ...of },
      ...{ model: 'arrival', otherSpeed: null, direction: null, jumps: [], newFinds: 112 },
      origins: [{ lon: -99.5, lat: 40.2, place: '31145', kilometres: 11, since: 2013 }],
    },
  ];
}

function numbersOf(group: Group): GroupNumbers {
  const places = region.counties.map(({ fips, fullName, state }, i) => ({
    ...{ kind: 'county' as const, key: fips, name: `${fullName}, ${state}` },
    status:
      i % 3 === 0
        ? ('confirmed' as const)
        : i % 3 === 1
          ? ('none confirmed' as const)
          : ('not screened' as const),
    counted: i % 3 === 2 ? null : counted(6, i % 3 === 0 ? 3 : 0),
  }));
  return {
    ...{ group, places, findings: findings(group), lookNext: lookNext(group) },
    whole: {
      kind: 'region',
      key: 'region',
      name: region.name,
      status: 'confirmed',
      counted: counted(1350, 345),
    },
    receipt: { received: 1364, testable: 1355 },
    series: SEASONS.map((season) => ({
      ...{ season, withheld: false, tested: 118, resistant: 40, ...wilsonInterval(40, 118) },
      unfinished: season === 2025,
    })),
  };
}

const numbers: BriefingNumbers = {
  source: { kind: 'private', date: '2026-02-10', analysis: 12, held: 14 },
  ...{ programme: 'Invented screening cooperative (simulated)', simulated: true },
  caseDefinition: {
    version: 'invented-1',
    words: `Resistant: ${'invented words of a case definition as long as that of the demonstration; '.repeat(3).trim()}`,
  },
  ...{ region, regionName: region.name, wholeName: region.name, isPart: false, species: SPECIES },
  ...{ window: WINDOW, closedSeasons: SEASONS.slice(0, -1), crop: null, funder: null },
  groups: [numbersOf(5), numbersOf(14)],
  standings: [2, 4, 5, 9, 10, 14].map((group) => ({
    ...({ group, status: 'confirmed', counted: counted(345, 10 * group), actives: ['invented'] } as const),
  })),
  effort: {
    ...{ counties: { screened: 211, of: region.counties.length }, byCrop: null },
    bySource: ['corn', 'sorghum', 'soybean', 'sunflower', 'wheat'].map((crop) => ({
      ...{ crop, funder: `${crop} board (simulated)`, received: 1323, tested: 1322, counties: 158 },
    })),
    days: { samples: 1783, median: 109, low: 92, high: 126 },
  },
};

it('a private briefing of two groups has two pages, where every section is told in its longest words', async () => {
  const briefing = briefingOf(numbers);
  expect(briefing.headlines).toHaveLength(10);
  const { pages, bookmarks } = await readPdf(await makeBriefing(briefing, 'pdf'));
  const text = pages.map((one) => one.text).join(' ');
  for (const words of [
    'so the order may be little better',
    'sunflower board',
    'awaits its second run',
    '5 of its 6',
  ])
    expect(text).toContain(words);
  expect(bookmarks).toHaveLength(9);
  expect(pages).toHaveLength(2);
});
