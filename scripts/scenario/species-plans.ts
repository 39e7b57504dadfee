import type { Eppo, Group } from '@/lib/vocabulary/terms';
import type { ShareModel } from './share-models';

/** One group against which a species is screened. */
export interface TestPlan {
  group: Group;
  /** ISO common names; every screened population is sprayed with all of them, one row each. */
  actives: readonly string[];
  /** Active of the soil-applied assay, or null where the group is never screened so. */
  soilActive: string | null;
  /** True where a tenth of all records may come from a DNA test. */
  molecular: boolean;
  /** Share of the species' populations that are screened against the group. */
  screened: number;
  model: ShareModel;
}

export interface SpeciesPlan {
  eppo: Eppo;
  /** The name on ordinary rows, and other names that a sheet may carry for it. */
  name: string;
  otherNames: readonly string[];
  /** Share of what is sent, any positive unit. */
  share: number;
  /** Days of the year (1 = 1 January) between which seed is collected. */
  collected: readonly [number, number];
  crops: readonly string[];
  tests: readonly TestPlan[];
}

/** The six species and seventeen pairs whose patterns the scenario plants. */
export function plantedSpecies(): SpeciesPlan[] {
  return [kochia(), palmerAmaranth(), horseweed(), johnsongrass(), wildOat(), russianThistle()];
}

const FALL = [232, 298] as const;

function kochia(): SpeciesPlan {
  return {
    eppo: 'KCHSC',
    name: 'Bassia scoparia',
    otherNames: ['Kochia scoparia', 'kochia'],
    share: 28,
    collected: FALL,
    crops: ['wheat', 'wheat', 'sorghum', 'corn', 'sunflower'],
    tests: [
      test(27, ['mesotrione'], 1, {
        kind: 'front',
        startsAfter: 1,
        kmPerYear: 40,
        scatterYears: 1,
        highest: 0.75,
        riseYears: 1.5,
      }),
      test(2, ['metsulfuron-methyl'], 0.6, byHistory(0.95, 0.72)),
      test(4, ['dicamba', 'fluroxypyr'], 0.6, byHistory(0.4, 0.1)),
      test(5, ['atrazine'], 0.6, byHistory(0.5, 0.2), 'atrazine'),
      test(9, ['glyphosate'], 0.6, byHistory(0.75, 0.25)),
      test(14, ['saflufenacil'], 0.6, byHistory(0.06, 0.01), 'sulfentrazone'),
    ],
  };
}

function palmerAmaranth(): SpeciesPlan {
  return {
    eppo: 'AMAPA',
    name: 'Palmer amaranth',
    otherNames: ['Palmer pigweed', 'Amaranthus palmeri', 'AMAPA'],
    share: 20,
    collected: FALL,
    crops: ['corn', 'soybean', 'soybean', 'sorghum'],
    tests: [
      test(10, ['glufosinate'], 1, {
        kind: 'introductions',
        startAfter: [1, 2, 4],
        toNeighbour: 0.22,
        longJump: 0.008,
        highest: 0.7,
        riseYears: 1.5,
      }),
      test(2, ['imazethapyr'], 0.6, byHistory(0.8, 0.45)),
      test(4, ['dicamba', 'fluroxypyr'], 0.6, byHistory(0.12, 0.02)),
      test(5, ['atrazine'], 0.6, byHistory(0.45, 0.15), 'atrazine'),
      test(9, ['glyphosate'], 0.6, byHistory(0.9, 0.4)),
      test(14, ['fomesafen'], 0.6, byHistory(0.3, 0.04), 'flumioxazin'),
    ],
  };
}

function horseweed(): SpeciesPlan {
  return {
    eppo: 'ERICA',
    name: 'horseweed',
    otherNames: ['Conyza canadensis', 'marestail', 'Erigeron canadensis'],
    share: 16,
    collected: FALL,
    crops: ['soybean', 'soybean', 'corn'],
    tests: [
      // 0.35 · 0.85 + 0.65 · 0.3885 = 0.55 and 0.35 · 0.95 + 0.65 · 0.5654 = 0.70
      test(2, ['cloransulam-methyl'], 1, byHistory(0.85, 0.3885)),
      test(9, ['glyphosate'], 1, byHistory(0.95, 0.5654)),
    ],
  };
}

function johnsongrass(): SpeciesPlan {
  const model = { kind: 'standing cluster', inside: 0.6, outside: 0.1, counties: 35 } as const;
  return {
    eppo: 'SORHA',
    name: 'johnsongrass',
    otherNames: ['Johnson grass', 'Sorghum halepense'],
    share: 16.7,
    collected: FALL,
    crops: ['sorghum', 'sorghum', 'corn', 'soybean'],
    tests: [{ ...test(2, ['nicosulfuron'], 1, model), molecular: false }],
  };
}

function wildOat(): SpeciesPlan {
  return {
    eppo: 'AVEFA',
    name: 'Avena fatua',
    otherNames: ['wild oats', 'wild oat'],
    share: 16.2,
    collected: [200, 240],
    crops: ['wheat'],
    tests: [test(1, ['clodinafop-propargyl'], 1, { kind: 'trend', from: 0.1, to: 0.45, seasons: 12 })],
  };
}

function russianThistle(): SpeciesPlan {
  return {
    eppo: 'SASKR',
    name: 'Russian thistle',
    otherNames: ['Salsola iberica', 'Salsola tragus', 'tumbleweed'],
    share: 3.1,
    collected: [258, 304],
    crops: ['wheat', 'sunflower'],
    tests: [{ ...test(14, ['saflufenacil'], 1, { kind: 'constant', share: 0 }), molecular: false }],
  };
}

function byHistory(heavy: number, light: number): ShareModel {
  return { kind: 'by history', heavy, light };
}

function test(
  group: Group,
  actives: readonly string[],
  screened: number,
  model: ShareModel,
  soilActive: string | null = null,
): TestPlan {
  return { group, actives, soilActive, molecular: [2, 9, 14].includes(group), screened, model };
}
