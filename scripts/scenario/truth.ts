import type { Region } from '@/lib/geography/types';
import type { Eppo, Fips, Group, Season } from '@/lib/vocabulary/terms';
import type { CountyOperations } from './operations';
import { PARAMETERS } from './parameters';
import { latentShare, type Planting } from './planting';
import type { ShareModel } from './share-models';
import { DEMO_DAY, PROGRAMME, populationsIn, type Size, type SizePlan, seasonsOf } from './sizes';
import type { SpeciesPlan } from './species-plans';

/** What was planted, to compare with what is found. Counties by FIPS code, shares 0–1. */
export interface Truth {
  simulated: true;
  programme: string;
  day: string;
  size: Size;
  seed: number;
  region: { name: string; states: string[]; counties: number };
  seasons: { season: Season; received: number; open: boolean }[];
  parameters: typeof PARAMETERS;
  effort: {
    campuses: Fips[];
    sendNothing: Fips[];
    onePopulation: Fips[];
    oneOperation: Fips[];
    oneSender: { county: Fips; operation: string; share: number };
  };
  pairs: {
    species: Eppo;
    group: Group;
    actives: readonly string[];
    model: ShareModel;
    /** Share by season where it is the same in all counties, else null: see below for what is planted where. */
    shares: Record<Season, number> | null;
  }[];
  /** Two- and three-way resistance: share resistant to all the groups of a set, and were they independent. */
  together: { species: Eppo; groups: Group[]; share: number; ifIndependent: number }[];
  front: {
    species: Eppo;
    group: Group;
    origin: Fips;
    originSeason: Season;
    kmPerYear: number;
    scatterYears: number;
    /** Years of the calendar with fractions. */
    arrivals: Record<Fips, number>;
  };
  introductions: {
    species: Eppo;
    group: Group;
    origins: { county: Fips; season: Season }[];
    jumps: { from: Fips; to: Fips; season: Season }[];
    /** First season of each county that was reached. */
    arrivals: Record<Fips, number>;
  };
  standingCluster: {
    species: Eppo;
    group: Group;
    campus: Fips;
    counties: Fips[];
    inside: number;
    outside: number;
  };
  activesDisagree: { species: Eppo; group: Group; actives: readonly string[]; counties: Fips[] };
  cleanThenFound: {
    species: Eppo;
    group: Group;
    county: Fips;
    clean: Season;
    found: Season;
    populations: number;
  };
}

/** Puts the planted values into words that a file can keep. */
export function truthOf({
  region,
  size,
  plan,
  seed,
  species,
  planting,
  operations,
}: {
  region: Region;
  size: Size;
  plan: SizePlan;
  seed: number;
  species: readonly SpeciesPlan[];
  planting: Planting;
  operations: readonly CountyOperations[];
}): Truth {
  const fips = (i: number) => region.counties[i]!.fips;
  const { effort, front, introductions, cleanThenFound } = planting;
  const frontPair = pairOf(species, 'front');
  const introducedPair = pairOf(species, 'introductions');
  const clusterPair = pairOf(species, 'standing cluster');
  const twoActives = species[0]!.tests.find(({ actives }) => actives.length > 1)!;

  return {
    simulated: true,
    programme: PROGRAMME,
    day: DEMO_DAY,
    size,
    seed,
    region: {
      name: region.name,
      states: region.states.map(({ code }) => code),
      counties: region.counties.length,
    },
    seasons: seasonsOf(plan).map((season) => ({
      season,
      received: populationsIn(plan, season),
      open: season === plan.openSeason,
    })),
    parameters: PARAMETERS,
    effort: {
      campuses: effort.campuses.map(fips),
      sendNothing: sorted(effort.none.map(fips)),
      onePopulation: sorted(effort.onePopulation.map(fips)),
      oneOperation: sorted(effort.oneOperation.map(fips)),
      oneSender: {
        county: fips(planting.oneSender),
        operation: operations[planting.oneSender]!.ids[0]!,
        share: PARAMETERS.oneSenderShare,
      },
    },
    pairs: species.flatMap(({ eppo, tests }) =>
      tests.map((test) => ({
        species: eppo,
        group: test.group,
        actives: test.actives,
        model: test.model,
        shares: sharesBySeason(planting, plan, test),
      })),
    ),
    together: togetherSets(species),
    front: {
      ...frontPair.key,
      origin: fips(front.origin),
      originSeason: plan.firstSeason + frontPair.model.startsAfter,
      kmPerYear: frontPair.model.kmPerYear,
      scatterYears: frontPair.model.scatterYears,
      arrivals: arrivalsOf(region, front.arrivals),
    },
    introductions: {
      ...introducedPair.key,
      origins: introductions.origins.map(({ county, season }) => ({ county: fips(county), season })),
      jumps: introductions.jumps.map(({ from, to, season }) => ({ from: fips(from), to: fips(to), season })),
      arrivals: arrivalsOf(region, introductions.arrivals),
    },
    standingCluster: {
      ...clusterPair.key,
      campus: fips(effort.campuses[1]),
      counties: sorted([...planting.cluster].map(fips)),
      inside: clusterPair.model.inside,
      outside: clusterPair.model.outside,
    },
    activesDisagree: {
      species: species[0]!.eppo,
      group: twoActives.group,
      actives: twoActives.actives,
      counties: sorted([...planting.disagreement].map(fips)),
    },
    cleanThenFound: {
      ...introducedPair.key,
      county: fips(cleanThenFound.county),
      clean: cleanThenFound.clean,
      found: cleanThenFound.found,
      populations: cleanThenFound.populations,
    },
  };
}

function pairOf<K extends ShareModel['kind']>(species: readonly SpeciesPlan[], kind: K) {
  for (const { eppo, tests } of species) {
    for (const { group, model } of tests) {
      if (model.kind === kind) {
        return { key: { species: eppo, group }, model: model as Extract<ShareModel, { kind: K }> };
      }
    }
  }
  throw new RangeError(`No species is planted with a ${kind}.`);
}

function sharesBySeason(planting: Planting, plan: SizePlan, test: SpeciesPlan['tests'][number]) {
  if (!['constant', 'by history', 'trend'].includes(test.model.kind)) return null;
  const { heavyHistory } = PARAMETERS;
  return Object.fromEntries(
    seasonsOf(plan).map((season) => {
      const at = (heavy: boolean) =>
        latentShare(planting, test, { county: 0, season, firstSeason: plan.firstSeason, heavy });
      return [season, round(heavyHistory * at(true) + (1 - heavyHistory) * at(false))];
    }),
  );
}

/** The sets of groups whose joint share is planted, for species whose groups come together by history. */
function togetherSets(species: readonly SpeciesPlan[]): Truth['together'] {
  const sets: readonly (readonly [Eppo, Group[]])[] = [
    ['KCHSC', [2, 9]],
    ['KCHSC', [2, 4, 9]],
    ['AMAPA', [2, 9]],
    ['AMAPA', [2, 9, 14]],
    ['ERICA', [2, 9]],
  ];
  const { heavyHistory } = PARAMETERS;
  return sets.map(([eppo, groups]) => {
    const { tests } = species.find((one) => one.eppo === eppo)!;
    const models = groups.map((group) => {
      const { model } = tests.find((test) => test.group === group)!;
      if (model.kind !== 'by history') throw new RangeError(`${eppo} × ${group} does not follow history.`);
      return model;
    });
    const product = (of: (model: (typeof models)[number]) => number) =>
      models.reduce((all, m) => all * of(m), 1);
    const share = heavyHistory * product((m) => m.heavy) + (1 - heavyHistory) * product((m) => m.light);
    const ifIndependent = product((m) => heavyHistory * m.heavy + (1 - heavyHistory) * m.light);
    return { species: eppo, groups, share: round(share), ifIndependent: round(ifIndependent) };
  });
}

function arrivalsOf(region: Region, arrivals: Float64Array): Record<Fips, number> {
  const entries = region.counties.flatMap(({ fips }, i) =>
    Number.isNaN(arrivals[i]!) ? [] : [[fips, Math.round(arrivals[i]! * 100) / 100] as const],
  );
  return Object.fromEntries(entries);
}

function sorted(codes: Fips[]): Fips[] {
  return codes.sort();
}

function round(share: number): number {
  return Math.round(share * 1e4) / 1e4;
}
