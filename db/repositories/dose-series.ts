import type { DoseTray } from '@/lib/intake/confirmation/fit-doses';
import type { Eppo, Group } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';

/** Dose series of one run, species and active: private. */
export interface RunSeries {
  laboratory: string;
  run: string;
  species: Eppo;
  group: Group;
  actives: string[];
  series: { sample: string; trays: DoseTray[] }[];
  /** Trays of the run's susceptible check. */
  check: DoseTray[];
}

/**
 * The runs in which a population was sprayed at several doses, from records that stand; void runs are left out.
 *
 * @param which of one laboratory or run; all unless given
 */
export async function readDoseSeries(
  db: StaffDatabase,
  which: { laboratory?: string | undefined; run?: string | undefined },
): Promise<RunSeries[]> {
  const rows = await db.$client<
    (Omit<RunSeries, 'series' | 'check'> & DoseTray & { sample: string; isCheck: boolean })[]
  >`
    select s.laboratory, r.run, r.species, r.group_number as "group", r.actives, coalesce(r.sample, '') as sample,
      r.kind = 'check' as "isCheck", r.rate_multiple as dose, r.treated, r.alive
    from intake.record r join intake.sheet s on s.id = r.sheet_id
    left join surveillance.run run on run.laboratory = s.laboratory and run.name = r.run
    where r.standing and r.run is not null and r.rate_multiple > 0 and r.treated > 0 and r.alive is not null
      and (r.kind = 'tested' or r.kind = 'check' and r.details->>'check' = 'susceptible')
      and coalesce(run.valid, true) and r.species is not null and r.group_number is not null
      and (${which.laboratory ?? null}::text is null or s.laboratory = ${which.laboratory ?? null})
      and (${which.run ?? null}::text is null or r.run = ${which.run ?? null})
    order by s.laboratory, r.run, r.species, r.group_number, r.actives, sample, r.rate_multiple, r.sheet_id, r.record`;
  const runs = new Map<string, RunSeries>();
  for (const { sample, isCheck, dose, treated, alive, ...about } of rows) {
    const key = JSON.stringify(about);
    const run = runs.get(key) ?? { ...about, series: [], check: [] };
    runs.set(key, run);
    const last = run.series.at(-1);
    const tray = { dose, treated, alive };
    if (isCheck) run.check.push(tray);
    else if (last?.sample === sample) last.trays.push(tray);
    else run.series.push({ sample, trays: [tray] });
  }
  return [...runs.values()]
    .map((run) => ({
      ...run,
      series: run.series.filter(({ trays }) => new Set(trays.map(({ dose }) => dose)).size > 1),
    }))
    .filter(({ series }) => series.length > 0);
}
