import type { Region } from '@/lib/geography/types';
import type { Outcome } from '@/lib/vocabulary/terms';
import { daysLater, spreadsheetSerial } from './dates';
import { PARAMETERS } from './parameters';
import type { Random } from './random';
import type { Cells, ScenarioRow } from './sheet';
import type { SpeciesPlan } from './species-plans';

export interface FaultContext {
  region: Region;
  countyIndex: number;
  species: SpeciesPlan;
}

/**
 * Gives a few records one fault of real sheets each; all others pass as they are.
 * @returns the record, or the record and its copy where it was entered twice
 */
export function alterRow(row: ScenarioRow, context: FaultContext, random: Random): ScenarioRow[] {
  if (!random.chance(PARAMETERS.faultyRows)) return [row];
  if (random.chance(1 / (FAULTS.length + 1))) {
    const copy: ScenarioRow = {
      cells: { ...row.cells },
      truth: { ...row.truth, outcome: 'refused', result: null },
      fault: { kind: 'entered twice', was: {} },
    };
    return [row, copy];
  }
  for (const { kind, outcome, alter } of random.shuffle(FAULTS)) {
    const changed = alter(row, context, random);
    if (!changed) continue;
    const expected = typeof outcome === 'string' ? outcome : outcome(row.cells);
    const was = Object.fromEntries(
      Object.keys(changed).map((column) => [column, row.cells[column as keyof Cells]]),
    );
    return [
      {
        cells: { ...row.cells, ...changed },
        truth: {
          ...row.truth,
          active: changed['Herbicide / Group'] === undefined ? row.truth.active : null,
          outcome: expected,
          result: expected === 'accepted' ? row.truth.result : null,
        },
        fault: { kind, was },
      },
    ];
  }
  return [row];
}

/** All kinds of fault that a truth file may list. */
export function faultKinds(): string[] {
  return ['not viable', 'entered twice', ...FAULTS.map(({ kind }) => kind)];
}

interface FaultRule {
  kind: string;
  /** What intake should make of the altered record. */
  outcome: Outcome | ((before: Cells) => Outcome);
  /** The cells that change, or null where the fault cannot happen to this record. */
  alter: (row: ScenarioRow, context: FaultContext, random: Random) => Partial<Cells> | null;
}

const LEGACY_LETTERS: Readonly<Record<number, string>> = {
  1: 'A',
  2: 'B',
  5: 'C1',
  9: 'G',
  10: 'H',
  14: 'E',
  27: 'F2',
};

const FAULTS: readonly FaultRule[] = [
  {
    kind: 'county misspelled',
    outcome: (before) => (before.Lat === '' ? 'in question' : 'accepted'),
    alter: ({ cells }, { region, countyIndex }, random) => {
      const { name, state } = region.counties[countyIndex]!;
      if (cells.County !== name || !/^[A-Za-z]{7,}$/.test(name)) return null;
      const at = 2 + random.below(name.length - 4);
      const County = name.slice(0, at) + name.slice(at + 1);
      const other = region.counties.some((c) => c.state === state && c.name !== name && near(c.name, County));
      return other || County === name ? null : { County };
    },
  },
  {
    kind: 'county written another way',
    outcome: 'accepted',
    alter: ({ cells }, { region, countyIndex }, random) => {
      const { name } = region.counties[countyIndex]!;
      if (cells.County !== name) return null;
      return {
        County: random.pick([`${name} Co.`, `${name.toUpperCase()} COUNTY`, ` ${name.toLowerCase()} `]),
      };
    },
  },
  {
    kind: 'county code without its zero',
    outcome: 'accepted',
    alter: (_, { region, countyIndex }) => {
      const { fips } = region.counties[countyIndex]!;
      return fips.startsWith('0') ? { County: fips.slice(1) } : null;
    },
  },
  {
    kind: 'coordinates swapped',
    outcome: 'accepted',
    alter: ({ cells }) => (cells.Lat === '' ? null : { Lat: cells.Long, Long: cells.Lat }),
  },
  {
    kind: 'minus sign lost',
    outcome: 'accepted',
    alter: ({ cells }) => (cells.Long.startsWith('-') ? { Long: cells.Long.slice(1) } : null),
  },
  {
    kind: 'coordinates of another county',
    outcome: 'in question',
    alter: ({ cells }, { region, countyIndex }) => {
      const other = region.counties[region.neighbours[countyIndex]![0] ?? -1];
      if (cells.Lat === '' || !other) return null;
      return { Lat: other.lat.toFixed(5), Long: other.lon.toFixed(5) };
    },
  },
  {
    kind: 'other name of the species',
    outcome: 'accepted',
    alter: ({ cells }, { species }, random) => {
      const Weed = random.pick(species.otherNames);
      return Weed === cells.Weed ? null : { Weed };
    },
  },
  {
    kind: 'name of several species',
    outcome: 'in question',
    alter: (_, { species }) => (species.eppo.startsWith('AMA') ? { Weed: 'pigweed' } : null),
  },
  {
    kind: 'group by its old letter',
    outcome: 'accepted',
    alter: ({ truth }) => {
      const letter = LEGACY_LETTERS[truth.group];
      return letter && truth.active !== null ? { 'Herbicide / Group': letter } : null;
    },
  },
  {
    kind: 'rate in grams',
    outcome: 'in question',
    alter: () => ({ Rate: '870 g/ha' }),
  },
  {
    kind: 'percent in place of plants',
    outcome: 'accepted',
    alter: ({ cells }) => {
      const percent = (100 * Number(cells['Plants alive'])) / Number(cells['Plants treated']);
      return percent > 0 && Number.isInteger(percent) ? { 'Plants alive': `${percent}%` } : null;
    },
  },
  {
    kind: 'word in place of a count',
    outcome: 'in question',
    alter: ({ truth }) => (truth.resistant ? { 'Plants alive': 'most' } : null),
  },
  {
    kind: 'more alive than treated',
    outcome: 'refused',
    alter: ({ cells }) => ({ 'Plants alive': String(Number(cells['Plants treated']) + 4) }),
  },
  {
    kind: 'too few plants',
    outcome: 'in question',
    // A DNA test needs few plants.
    alter: ({ truth }) =>
      truth.assay === 'molecular'
        ? null
        : { 'Plants treated': '6', 'Plants alive': truth.resistant ? '5' : '0' },
  },
  { kind: 'check missing', outcome: 'in question', alter: () => ({ 'S check': '' }) },
  {
    kind: 'check survived',
    outcome: 'refused',
    alter: () => ({ 'S check': 'N', Remarks: 'simulated; S check survived' }),
  },
  {
    kind: 'received before collected',
    outcome: 'in question',
    alter: ({ cells }) => ({ "Date rec'd": daysLater(cells['Date collected'], -5) }),
  },
  {
    kind: 'date as a spreadsheet number',
    outcome: 'accepted',
    alter: ({ cells }) => ({ 'Date collected': String(spreadsheetSerial(cells['Date collected'])) }),
  },
];

/** Whether two names are so alike that a reader could take one for the other: equal but for two letters. */
function near(a: string, b: string): boolean {
  return a === b || (Math.abs(a.length - b.length) <= 1 && a.slice(0, 3) === b.slice(0, 3));
}
