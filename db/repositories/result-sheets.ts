import type { ResultSheetFacts } from '@/lib/briefing/result-sheet/types';
import type { Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';

/** A sample whose result can go to its sender. Private. */
export interface SampleLine {
  /** Of the population: one species of one sample. */
  id: number;
  sample: string;
  season: Season;
  laboratory: string;
  species: string;
  county: string;
  sender: string | null;
  /** ISO day; null = not yet handed over. */
  reported: string | null;
  /** Screening results that it has. */
  results: number;
}

export interface SampleFilter {
  season: Season;
  laboratory?: string | null;
  /** True: only samples whose senders have not been told. */
  untold?: boolean;
  /** Part of the sample's number. */
  sample?: string | null;
  /** Samples after this one, in the order of their numbers. */
  after?: { sample: string; id: number } | null;
  limit: number;
}

/** Samples of a season with at least one result, in the order of their numbers. */
export async function samplesToReport(db: StaffDatabase, filter: SampleFilter): Promise<SampleLine[]> {
  const { season, laboratory = null, untold = false, sample = null, after = null, limit } = filter;
  return db.$client<SampleLine[]>`
    select p.id, p.sample, p.season, p.laboratory, p.species, p.county, p.sender, p.reported::text as reported, t.results
    from surveillance.population p,
      lateral (select count(*)::int as results from surveillance.test t where t.population_id = p.id) t
    where p.season = ${season} and t.results > 0 and (${laboratory}::text is null or p.laboratory = ${laboratory})
      and (${!untold} or p.reported is null)
      and (${sample}::text is null or position(upper(${sample}) in upper(p.sample)) > 0)
      and (${after === null} or (upper(p.sample) collate "C", p.id) > (upper(${after?.sample ?? ''}) collate "C", ${after?.id ?? 0}))
    order by upper(p.sample) collate "C", p.id limit ${limit}`;
}

/** Laboratories with samples of a season. */
export async function laboratoriesOf(db: StaffDatabase, season: Season): Promise<string[]> {
  const rows = await db.$client<{ laboratory: string }[]>`
    select distinct laboratory from surveillance.population where season = ${season} order by laboratory`;
  return rows.map(({ laboratory }) => laboratory);
}

/**
 * What the result sheets of some samples say, in the order of their numbers: everything that was screened, rate by rate,
 * with the word on the checks of its runs.
 */
export async function resultSheetFacts(
  db: StaffDatabase,
  ids: readonly number[],
): Promise<ResultSheetFacts[]> {
  return db.$client<ResultSheetFacts[]>`
    select p.id, p.sample, p.season, p.laboratory, p.species, p.county, p.collected, p.received, p.crop, p.design,
      p.reported::text as reported,
      (select coalesce(json_agg(json_build_object(
          'group', t.group_number, 'actives', t.actives, 'assay', t.assay, 'rateMultiple', t.rate_multiple,
          'treated', t.treated, 'alive', t.alive, 'result', coalesce(t.result, t.kind),
          'caseDefinition', t.case_definition, 'contradictory', t.contradictory,
          'isFirstFind', exists (select from surveillance.first_find f where f.test_key = t.key and f.confirmed_at is null))
          order by t.group_number, t.actives, t.assay, t.rate_multiple nulls first), '[]')
        from surveillance.test t where t.population_id = p.id) as tests,
      (select coalesce(json_agg(json_build_object('name', u.name, 'valid', u.valid, 'why', u.why) order by u.name), '[]')
        from surveillance.run u where u.laboratory = p.laboratory and u.name in (
          select r.run from intake.record r
          where r.population_key = p.key and r.standing and r.kind is not null and r.run is not null)) as runs
    from surveillance.population p where p.id = any(${ids as number[]})
    order by upper(p.sample) collate "C", p.id`;
}

/** Ids of the samples of a season that wait for their sheet, at most so many, in the order of their numbers. */
export async function untoldIds(
  db: StaffDatabase,
  filter: Pick<SampleFilter, 'season' | 'laboratory' | 'limit'>,
): Promise<number[]> {
  return (await samplesToReport(db, { ...filter, untold: true })).map(({ id }) => id);
}
