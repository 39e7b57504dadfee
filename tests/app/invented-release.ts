import type { ReleaseInput } from '@/db/repositories/releases';
import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import { type ReleasedBody, releasedCubeFromStore } from '@/lib/disclosure/released';
import type { ReleasedCell, SeasonTable } from '@/lib/disclosure/types';
import { larkspurBasinDistricts } from '@/lib/geography/districts/larkspur-basin';
import { loadRegion } from '@/lib/geography/region';
import type { AreaTable, County } from '@/lib/geography/types';
import { releaseFiles } from '@/lib/release/files';
import { publicFindings } from '@/lib/release/public-findings';
import type { Pair, ReleaseDraft } from '@/lib/release/types';
import { Random } from '@/lib/stats/random';
import { commonNameOf } from '@/lib/vocabulary/species';
import type { Period } from '@/lib/vocabulary/terms';

/** Everything here is invented for the tests: it says nothing of any real field, county or programme. */

const CLOSED = [2019, 2020, 2021, 2022, 2023, 2024];
const OPEN = 2025;
const WINDOWS = [
  { first: 2019, last: 2021 },
  { first: 2022, last: 2024 },
];
const PAIRS: Pair[] = [
  { species: 'AMAPA', group: 10 },
  { species: 'KCHSC', group: 9 },
  { species: 'KCHSC', group: 27 },
];

const POLICY = {
  version: 'invented 1',
  minimumTested: 5,
  minimumOperations: 3,
  unanimousOperations: 5,
  windowLength: 3,
  countySeasonShare: 0.6,
  districtSeasonShare: 0.33,
};

/** Districts are shown by season throughout, counties never. */
const SEASON_TABLES: SeasonTable[] = PAIRS.flatMap((pair) =>
  WINDOWS.map(({ first }) => ({ placeKind: 'district' as const, ...pair, first })),
);

interface Counts {
  tested: number;
  resistant: number;
}

export const inventedRegion = () =>
  loadRegion({
    name: 'Invented basin',
    states: ['CO', 'KS', 'NE', 'SD'],
    districts: larkspurBasinDistricts(),
  });

/**
 * A release of the four states, large enough for every look and every branch of the page. Cells below five screened are
 * withheld and nothing else is: it shows a page, and proves nothing of the gate.
 */
export function inventedRelease(): ReleaseInput {
  const region = inventedRegion();
  const areas = inventedAreas(region.counties);
  const body: ReleasedBody = {
    policy: POLICY,
    firstSeason: CLOSED[0]!,
    closedSeasons: CLOSED,
    openSeason: OPEN,
    windows: WINDOWS,
    seasonTables: SEASON_TABLES,
    areas,
    cells: PAIRS.flatMap((pair) => cellsOf(pair, region.counties, areas)),
    statuses: [],
    furtherTables: ['crop', 'active', 'several groups'],
    further: furtherCells(region.districts.map(({ code }) => code)),
  };
  const cube = releasedCubeFromStore(body);
  const tests = { seed: 7, permutations: 199 };
  const findings = publicFindings(cube, { ...tests, region, speciesName: commonNameOf });
  const head: ReleaseDraft['head'] = {
    date: '2026-02-10',
    programme: 'Invented screening cooperative',
    region: region.name,
    states: region.states.map(({ code }) => code),
    simulated: true,
    note: 'Invented for the tests.',
    policy: POLICY,
    caseDefinition: {
      version: 'invented 1',
      words: 'A population is resistant when at least 20 % of its plants live at the label rate (invented).',
    },
    tests,
    firstSeason: CLOSED[0]!,
    closedSeasons: CLOSED,
    openSeason: OPEN,
    windows: WINDOWS,
    seasonTables: SEASON_TABLES,
    areas,
    furtherTables: ['crop', 'active', 'several groups'],
    pairs: PAIRS,
    leading: PAIRS[0]!,
  };
  const draft = { head, cube, findings };
  const audit = { clean: true, withheldCells: 0, publishedCells: 0, programs: 0, breaches: [] };
  return { draft, audit, files: (number) => releaseFiles(draft, number, region) };
}

/** In Kansas the counties of a district are counted three and three together for kochia, whatever was screened there. */
function inventedAreas(counties: readonly County[]): AreaTable[] {
  const districts = [...new Set(counties.map(({ district }) => district))];
  const areas = districts.flatMap((district) => {
    const own = counties.filter((county) => county.district === district).map(({ fips }) => fips);
    const size = district?.startsWith('KS') ? 3 : 1;
    return Array.from({ length: Math.ceil(own.length / size) }, (_, i) =>
      own.slice(i * size, (i + 1) * size),
    );
  });
  return WINDOWS.map(({ first }) => ({ species: 'KCHSC', first, areas }));
}

function cellsOf(pair: Pair, counties: readonly County[], areas: readonly AreaTable[]): ReleasedCell[] {
  const random = new Random(pair.group * 1000 + pair.species.charCodeAt(0));
  const bySeason = new Map([...CLOSED, OPEN].map((season) => [season, new Map<string, Counts>()]));
  for (const county of counties) {
    const effort = random.below(4) === 0 ? 0 : random.below(6);
    const share = Math.max(0, 0.75 - Math.abs(county.lon + 98) / 8);
    for (const counts of bySeason.values()) {
      const tested = effort === 0 ? 0 : random.below(effort + 2);
      let resistant = 0;
      for (let i = 0; i < tested; i++) if (random.uniform() < share) resistant++;
      counts.set(county.fips, { tested, resistant });
    }
  }
  const own = areas.find(({ species }) => species === pair.species)?.areas ?? [];
  const joined = own.filter(({ length }) => length > 1);
  const places = [
    { placeKind: 'region' as const, place: 'region', members: counties },
    ...grouped('state', counties, ({ state }) => state),
    ...grouped('district', counties, ({ district }) => district!),
    ...grouped('county', counties, ({ fips }) => fips).filter(
      ({ place }) => !joined.some((area) => area.includes(place)),
    ),
    ...joined.map((area) => ({
      placeKind: 'area' as const,
      place: area.join('+'),
      members: counties.filter(({ fips }) => area.includes(fips)),
    })),
  ];
  return places.flatMap(({ placeKind, place, members }) =>
    periodsOf(placeKind).flatMap((period): ReleasedCell[] => {
      const { tested, resistant } = sum(members, period, bySeason);
      if (tested === 0) return [];
      const key = { placeKind, place, period, ...pair, assay: 'whole plant' as const, design: null };
      const unfinished = period.last === OPEN;
      if (tested < 5)
        return [{ ...key, status: 'withheld', counts: null, receipt: null, actives: [], unfinished }];
      const wide = placeKind === 'region' || placeKind === 'state';
      return [
        {
          ...key,
          status: 'published',
          counts: { tested, resistant, someSurvivors: 0 },
          receipt: wide ? { received: tested + 9, testable: tested + 4, inconclusive: 4 } : null,
          actives: ['invented active'],
          unfinished,
        },
      ];
    }),
  );
}

/**
 * Two actives of group 9 in the districts of Kansas, three crops of group 27 in two states (wheat withheld in one season,
 * fallow in each), and how many groups kochia is resistant to in two states.
 */
function furtherCells(districts: readonly string[]): ReleasedCell[] {
  const shared = {
    assay: 'whole plant' as const,
    design: null,
    receipt: null,
    actives: [],
    unfinished: false,
  };
  const cell = (counts: ReleasedCell['counts']) => ({
    ...shared,
    ...{ status: counts ? ('published' as const) : ('withheld' as const), counts },
  });
  const kansas = districts.filter((code) => code.startsWith('KS'));
  const byActive = WINDOWS.flatMap((period) =>
    kansas.flatMap((place, i) =>
      ['invented active', 'other invented active'].map((name, k): ReleasedCell => {
        const counts = { tested: 6 + i, resistant: k === 0 ? i : 0, someSurvivors: 0 };
        return {
          ...{ placeKind: 'district', place, period, species: 'KCHSC', group: 9 },
          part: { of: 'active', name },
          ...cell(i === 1 ? null : counts),
        };
      }),
    ),
  );
  const byCrop = ['KS', 'NE'].flatMap((place) =>
    ['corn', 'fallow', 'wheat'].flatMap((name, k) =>
      CLOSED.filter((season) => name !== 'corn' || season > 2020).map((season, i): ReleasedCell => {
        const isHidden = name === 'fallow' || (name === 'wheat' && season === 2021);
        const counts = { tested: 6 + i + 4 * k, resistant: i, someSurvivors: 0 };
        return {
          ...{ placeKind: 'state', place, period: { first: season, last: season } },
          ...{ species: 'KCHSC', group: 27, part: { of: 'crop', name } },
          ...cell(isHidden ? null : counts),
        };
      }),
    ),
  );
  const bySeveral = WINDOWS.flatMap((period) =>
    ['region', 'KS', 'NE'].map((place): ReleasedCell => {
      // Of 40 are 12 resistant to two groups or more and 18 to one.
      const counts = { tested: 40, resistant: 12, someSurvivors: 18 };
      return {
        ...{ placeKind: place === 'region' ? 'region' : 'state', place, period, species: 'KCHSC' },
        ...{ group: SEVERAL_GROUPS, ...cell(place === 'NE' ? null : counts) },
      };
    }),
  );
  return [...byCrop, ...byActive, ...bySeveral];
}

function grouped<K extends 'state' | 'district' | 'county'>(
  placeKind: K,
  counties: readonly County[],
  keyOf: (county: County) => string,
) {
  return [...new Set(counties.map(keyOf))].map((place) => ({
    placeKind,
    place,
    members: counties.filter((county) => keyOf(county) === place),
  }));
}

function periodsOf(placeKind: ReleasedCell['placeKind']): Period[] {
  const seasons = CLOSED.map((season) => ({ first: season, last: season }));
  if (placeKind === 'county' || placeKind === 'area') return WINDOWS;
  if (placeKind === 'district') return [...seasons, ...WINDOWS];
  return [...seasons, { first: OPEN, last: OPEN }, ...WINDOWS];
}

function sum(members: readonly County[], period: Period, bySeason: Map<number, Map<string, Counts>>): Counts {
  const total = { tested: 0, resistant: 0 };
  for (let season = period.first; season <= period.last; season++) {
    for (const { fips } of members) {
      const counts = bySeason.get(season)!.get(fips)!;
      total.tested += counts.tested;
      total.resistant += counts.resistant;
    }
  }
  return total;
}
