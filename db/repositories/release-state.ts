import type { StaffDatabase } from '../clients/staff';
import { HELD } from './first-finds';

/**
 * A digest of everything stored that a release is made of: results with what is said of their samples, first finds that
 * wait, closed seasons, programme, policy, districts, case definitions, earlier releases. Two of the same digest give the same release.
 *
 * @cost one pass over the tests on the server (a second or two a million)
 */
export async function releaseState(db: StaffDatabase): Promise<string> {
  const sql = db.$client;
  const [row] = await sql<{ state: string }[]>`
    select md5(concat_ws('|',
      (select concat(count(*), ' ', sum(hashtextextended(x::text, 0)::numeric)) from (
        select p.id, p.county, p.season, p.species, t.group_number, t.assay, p.design, p.crop, p.funder, p.operation,
          p.public_share, t.actives, t.rate_multiple, coalesce(t.result, t.kind), ${sql.unsafe(HELD)}
        from surveillance.test t join surveillance.population p on p.id = t.population_id) x),
      (select string_agg(year::text, ',' order by year) from surveillance.season where closed_at is not null),
      (select string_agg(concat_ws(' ', name, region_name, states, case_definition, licence, simulated), ',') from surveillance.programme),
      (select string_agg(d::text, ',' order by d::text) from surveillance.case_definition d),
      (select max(id) from surveillance.policy),
      (select string_agg(d::text, ',' order by county) from surveillance.district d),
      (select string_agg(r::text, ',' order by r::text) from surveillance.recoded_county r),
      (select string_agg(concat(number, withdrawn_at), ',' order by number) from release.release))) as state`;
  return row!.state;
}
