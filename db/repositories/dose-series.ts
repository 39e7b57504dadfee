import { type DoseSet, type RunTray, runSeries } from '@/lib/intake/confirmation/fit-run-series';
import type { StaffDatabase } from '../clients/staff';
import type { Run } from './runs';

/** Dose series of one run, species and active: private. */
export interface RunSeries extends DoseSet {
  laboratory: string;
  run: string;
}

/** Of one laboratory or run; all unless given. */
export interface WhichRuns {
  laboratory?: string | undefined;
  run?: string | undefined;
}

/**
 * The runs in which a population was sprayed at several doses, from records that stand; void runs are left out, and so are
 * molecular assays (they count carriers) and soil-applied ones that are judged by emergence: neither counts survivors.
 */
export async function readDoseSeries(db: StaffDatabase, which: WhichRuns): Promise<RunSeries[]> {
  const rows = await db.$client<(RunTray & Pick<RunSeries, 'laboratory' | 'run'>)[]>`
    select laboratory, run, check_kind as check, population_key as population, sample, season, species,
      group_number as "group", actives, assay, rate_multiple as dose, treated, alive
    from (${seriesOf(db, which)}) r where valid and (kind = 'check' or lowest < highest)
    order by laboratory, run, sample, population_key, rate_multiple, sheet_id, record`;
  const runs: { laboratory: string; run: string; trays: RunTray[] }[] = [];
  for (const { laboratory, run, ...tray } of rows) {
    const last = runs.at(-1);
    if (last?.laboratory === laboratory && last.run === run) last.trays.push(tray);
    else runs.push({ laboratory, run, trays: [tray] });
  }
  return runs.flatMap(({ laboratory, run, trays }) =>
    runSeries(trays).map((set) => ({ laboratory, run, ...set })),
  );
}

/** The void runs among those in which a population was sprayed at several doses. */
export async function voidDoseRuns(db: StaffDatabase, which: WhichRuns): Promise<Run[]> {
  return db.$client<Run[]>`
    select distinct laboratory, run as name, valid, why from (${seriesOf(db, which)}) r
    where not valid and kind <> 'check' and lowest < highest order by laboratory, run`;
}

/** Records of runs whose plants were counted, with the lowest and highest dose of the population under the herbicide. */
function seriesOf({ $client: sql }: StaffDatabase, { laboratory = '', run = '' }: WhichRuns) {
  return sql`
    select s.laboratory, r.*, r.details->>'check' as check_kind, coalesce(run.valid, true) as valid, run.why,
      min(r.rate_multiple) over herbicide as lowest, max(r.rate_multiple) over herbicide as highest
    from intake.record r join intake.sheet s on s.id = r.sheet_id
    left join surveillance.run run on run.laboratory = s.laboratory and run.name = r.run
    where r.standing and r.run is not null and r.treated > 0 and r.alive is not null
      and (r.kind = 'check' or r.kind = 'tested' and r.rate_multiple > 0)
      and r.assay <> 'molecular' and not (r.assay = 'soil-applied' and r.details ? 'emerged')
      and ${laboratory} in ('', s.laboratory) and ${run} in ('', r.run)
    window herbicide as (partition by s.laboratory, r.run, r.population_key, r.group_number, r.actives, r.assay)`;
}
