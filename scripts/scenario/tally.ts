import type { Eppo, Group, Outcome, Season } from '@/lib/vocabulary/terms';
import type { ScenarioRow } from './sheet';

/** What a reading of the sheets came to. */
export interface Counts {
  records: number;
  populations: number;
  /** Distinct operation ids on the sheets. */
  operations: number;
  /** Counties with at least one population. */
  counties: number;
  outcomes: Record<Outcome, number>;
  /** Altered records by kind of fault. */
  faults: Record<string, number>;
  /** Latent truth of the populations screened (any active, any assay), faults left aside. */
  screened: { species: Eppo; group: Group; season: Season; populations: number; resistant: number }[];
}

export interface Tally {
  add(row: ScenarioRow): void;
  counts(): Counts;
}

/**
 * Counts records as they pass. Records of one population must follow each other, as they do on a sheet; a record
 * entered twice counts among records and faults only.
 */
export function tallyScenario(): Tally {
  const operations = new Set<string>();
  const counties = new Set<string>();
  const outcomes: Record<Outcome, number> = { accepted: 0, 'in question': 0, refused: 0 };
  const faults: Record<string, number> = {};
  const screened = new Map<string, Counts['screened'][number]>();
  let records = 0;
  let populations = 0;
  let sample = '';
  let groups = new Map<Group, { resistant: boolean }>();

  return {
    add({ cells, truth, fault }) {
      records++;
      outcomes[truth.outcome]++;
      if (fault) faults[fault.kind] = (faults[fault.kind] ?? 0) + 1;
      if (cells['Sample #'] !== sample) {
        sample = cells['Sample #'];
        groups = new Map();
        populations++;
        counties.add(truth.county);
        if (cells['Grower/Operation'] !== '') operations.add(cells['Grower/Operation']);
      }
      if (fault?.kind === 'not viable') return;
      const known = groups.get(truth.group);
      const key = `${truth.species}|${truth.group}|${truth.season}`;
      const { species, group, season } = truth;
      const sum = screened.get(key) ?? { species, group, season, populations: 0, resistant: 0 };
      screened.set(key, sum);
      if (!known) sum.populations++;
      if (truth.resistant && !known?.resistant) sum.resistant++;
      groups.set(truth.group, { resistant: truth.resistant || known?.resistant === true });
    },
    counts: () => ({
      records,
      populations,
      operations: operations.size,
      counties: counties.size,
      outcomes: { ...outcomes },
      faults: { ...faults },
      screened: [...screened.values()].sort(
        (a, b) => a.species.localeCompare(b.species, 'en') || a.group - b.group || a.season - b.season,
      ),
    }),
  };
}
