import type { Assay, Eppo, Group, Season } from '@/lib/vocabulary/terms';
import type { DoseTray } from './fit-doses';
import type { CheckKind } from './judge-run';

/** Plants of one record of a run. */
export interface RunTray {
  /** Null for a population. */
  check: CheckKind | null;
  /** Tells populations of one sample number from each other (another season); null for a check. */
  population: string | null;
  sample: string | null;
  season: Season | null;
  /** A check may leave weed and herbicide blank. */
  species: Eppo | null;
  group: Group | null;
  actives: readonly string[];
  assay: Assay;
  /** Multiple of the label rate; null where nothing was sprayed. */
  dose: number | null;
  treated: number;
  alive: number;
}

/** The populations of a run that were sprayed with one herbicide at several doses, with what stood beside them. */
export interface DoseSet {
  species: Eppo;
  group: Group;
  actives: readonly string[];
  assay: Assay;
  series: { sample: string; season: Season; trays: DoseTray[] }[];
  /** Trays of the susceptible check under the same herbicide. */
  check: DoseTray[];
  /** Plants of the species that nothing was sprayed on. */
  untreated: { treated: number; alive: number }[];
}

/**
 * Sorts the records of one run into dose series by species, group, actives and assay, each with its checks. A check that
 * leaves its weed (or herbicide, or the active of a group) blank stands beside those of the run only where the run holds a
 * single one: else nobody knows of which it is.
 *
 * @param trays of one run, of populations that were sprayed at several doses; populations in the order of their samples
 */
export function runSeries(trays: readonly RunTray[]): DoseSet[] {
  const sets = new Map<string, DoseSet>();
  const series = new Map<string, DoseTray[]>();
  for (const { check, population, sample, season, species, group, actives, assay, ...plants } of trays) {
    const isSeries = check === null && species !== null && group !== null && plants.dose !== null;
    if (!isSeries) continue;
    const key = [species, group, actives.join('+'), assay].join('|');
    const set = sets.get(key) ?? { species, group, actives, assay, series: [], check: [], untreated: [] };
    sets.set(key, set);
    const own = series.get(`${key}|${population}`) ?? [];
    if (own.length === 0) set.series.push({ sample: sample!, season: season!, trays: own });
    series.set(`${key}|${population}`, own);
    own.push(doseTray(plants));
  }
  const all = [...sets.values()];
  for (const set of all) {
    const beside = trays.filter((tray) => tray.check !== null && isOfSpecies(tray, set, all));
    set.check = beside
      .filter((tray) => tray.check === 'susceptible' && tray.dose !== null && isOfHerbicide(tray, set, all))
      .map(doseTray);
    set.untreated = beside
      .filter(({ check }) => check === 'untreated')
      .map(({ treated, alive }) => ({ treated, alive }));
  }
  return all;
}

function doseTray({ dose, treated, alive }: Pick<RunTray, 'dose' | 'treated' | 'alive'>): DoseTray {
  return { dose: dose!, treated, alive };
}

function isOfSpecies({ species }: RunTray, set: DoseSet, all: readonly DoseSet[]): boolean {
  return species === null ? all.every((other) => other.species === set.species) : species === set.species;
}

function isOfHerbicide({ group, actives, assay }: RunTray, set: DoseSet, all: readonly DoseSet[]): boolean {
  if (assay !== set.assay || (group !== null && group !== set.group)) return false;
  const named = actives.join('+');
  const own = set.actives.join('+');
  if (group !== null && named === own) return true;
  const possible = all.filter((other) => group === null || other.group === group);
  return (
    named === '' && possible.every((other) => other.group === set.group && other.actives.join('+') === own)
  );
}
