import type { ReleaseInput } from '@/db/repositories/releases';
import { type ReleasedBody, releasedCubeFromStore } from '@/lib/disclosure/released';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { programmeRegion } from '@/lib/geography/programme-region';
import { states as allStates } from '@/lib/geography/states';
import type { ReleaseDraft } from '@/lib/release/types';
import { Random } from '@/lib/stats/random';

const WINDOWS = [
  { first: 2019, last: 2021 },
  { first: 2022, last: 2024 },
];
const PAIR = { species: 'KCHSC', group: 9 };

/**
 * Invented counts for every county of 48 states in two windows: a map of national size and nothing more. It
 * does not call itself simulated, since only the simulated programme has districts, and those of four states alone.
 */
export function inventedNationalRelease(): ReleaseInput {
  const states = allStates()
    .map(({ code }) => code)
    .filter((code) => !ELSEWHERE.has(code));
  const region = programmeRegion({ name: 'Invented nation', states, simulated: false });
  const random = new Random(7);
  const cells = region.counties.flatMap(({ fips }) =>
    WINDOWS.map((period): ReleasedCell => {
      const tested = 5 + random.below(40);
      return {
        ...{ placeKind: 'county', place: fips, period, ...PAIR, assay: 'whole plant', design: null },
        ...{ status: 'published', receipt: null, actives: [], unfinished: false },
        counts: { tested, resistant: random.below(tested + 1), someSurvivors: 0 },
      };
    }),
  );
  const policy = {
    ...{ version: 'invented 1', minimumTested: 5, minimumOperations: 3, unanimousOperations: 5 },
    ...{ windowLength: 3, countySeasonShare: 0.6, districtSeasonShare: 0.33 },
  };
  const closedSeasons = [2019, 2020, 2021, 2022, 2023, 2024];
  const shared = { policy, firstSeason: 2019, closedSeasons, openSeason: null, windows: WINDOWS };
  const body: ReleasedBody = { ...shared, seasonTables: [], areas: [], cells, statuses: [] };
  const head: ReleaseDraft['head'] = {
    ...shared,
    ...{ date: '2026-02-10', programme: 'Invented programme', region: region.name, states, simulated: false },
    ...{ note: 'Invented for a benchmark.', caseDefinition: { version: 'invented 1', words: 'Invented.' } },
    ...{ seasonTables: [], areas: [], pairs: [PAIR], leading: PAIR },
  };
  const audit = { clean: true, withheldCells: 0, publishedCells: 0, programs: 0, breaches: [] };
  return { draft: { head, cube: releasedCubeFromStore(body), findings: [] }, audit, files: () => [] };
}

const ELSEWHERE = new Set(['AK', 'HI', 'DC', 'PR', 'AS', 'GU', 'MP', 'VI']);
