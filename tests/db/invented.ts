import type { JudgedRecord, SheetInput } from '@/db/repositories/sheets';
import type { AuditReport, ReleasedCell, ReleasedCube } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import type { ReleaseDraft } from '@/lib/release/types';
import { CASE_DEFINITIONS } from '@/lib/vocabulary/case-definition';

/** Everything here is invented for the tests: it says nothing of any real field, county or programme. */

export function sheetOf(sha: string): SheetInput {
  return {
    fileName: `${sha}.csv`,
    sha256: sha.repeat(64).slice(0, 64),
    laboratory: 'Invented Laboratory',
    asOf: '2026-02-10',
    by: 'a test',
    definition: CASE_DEFINITIONS[0]!,
    columns: { sample: 'Sample #', county: 'County' },
    lacking: {},
  };
}

/** An accepted record; `over` changes what a test is about. */
export function judged(record: number, over: Partial<JudgedRecord> = {}): JudgedRecord {
  return {
    record,
    line: record + 1,
    outcome: 'accepted',
    reasons: [],
    flags: [],
    kind: 'tested',
    sample: `S-${record}`,
    season: 2024,
    species: 'KCHSC',
    county: '31109',
    locatedBy: 'county',
    certainty: 'stated',
    lat: null,
    lon: null,
    group: 9,
    actives: ['glyphosate'],
    assay: 'whole plant',
    rateMultiple: 1,
    run: null,
    replicate: null,
    treated: 40,
    alive: 12,
    result: 'resistant',
    design: 'submitted',
    crop: 'wheat',
    funder: null,
    sender: 'SE-1',
    operation: `OP-${record}`,
    bag: null,
    publicShare: true,
    collected: '2024-09-14',
    datePrecision: 'day',
    received: '2024-09-21',
    details: {},
    raw: { 'Sample #': `S-${record}`, County: 'Lancaster' },
    ...over,
  };
}

export function cellOf(over: Partial<ReleasedCell> = {}): ReleasedCell {
  return {
    placeKind: 'county',
    place: '31109',
    period: { first: 2022, last: 2024 },
    species: 'KCHSC',
    group: 9,
    assay: 'whole plant',
    design: null,
    status: 'published',
    counts: { tested: 12, resistant: 4, someSurvivors: 1 },
    receipt: null,
    actives: ['glyphosate'],
    unfinished: false,
    ...over,
  };
}

export const WITHHELD: Partial<ReleasedCell> = {
  status: 'withheld',
  counts: null,
  receipt: null,
  actives: [],
};

export const FOUND: Finding = {
  kind: 'first detection',
  species: 'KCHSC',
  group: 9,
  placeKind: 'district',
  place: 'NE-1',
  period: { first: 2024, last: 2024 },
  how: 'new after a clean record',
  lastClean: { first: 2023, last: 2023 },
  arrival: { after: 2023, by: 2024 },
  sentence: 'In district NE-1 the first confirmed case came after a clean record.',
};

export const CLEAN: AuditReport = {
  clean: true,
  withheldCells: 1,
  publishedCells: 2,
  programs: 4,
  breaches: [],
};

const POLICY = {
  version: 'invented 1',
  minimumTested: 5,
  minimumOperations: 3,
  unanimousOperations: 5,
  windowLength: 3,
  countySeasonShare: 0.6,
  districtSeasonShare: 0.33,
};

/** A draft around these cells. */
export function draftOf(cells: ReleasedCell[], note = 'First release.'): ReleaseDraft {
  const seasons = { firstSeason: 2022, closedSeasons: [2022, 2023, 2024], openSeason: 2025 };
  const windows = [{ first: 2022, last: 2024 }];
  const statuses = [
    { placeKind: 'county', place: '31109', species: 'KCHSC', group: 9, status: 'confirmed' },
    { placeKind: 'county', place: '31055', species: 'KCHSC', group: 9, status: 'not screened' },
  ];
  const cube = {
    policy: POLICY,
    ...seasons,
    windows,
    cells,
    further: [],
    statuses,
  } as unknown as ReleasedCube;
  const named = {
    programme: 'Invented cooperative',
    region: 'Invented basin',
    states: ['NE'],
    simulated: true,
  };
  const pairs = [{ species: 'KCHSC', group: 9 }];
  const head = {
    date: '2026-02-10',
    ...named,
    note,
    policy: POLICY,
    caseDefinition: { version: 'invented 1', words: 'Invented.' },
    ...seasons,
    windows,
    seasonTables: [],
    areas: [],
    pairs,
    leading: pairs[0]!,
  };
  return { head, cube, findings: [FOUND] };
}
