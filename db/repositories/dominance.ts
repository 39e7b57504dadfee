import type { Eppo, Fips, Group, Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';

/** A county where one operation sent much of what was screened. Counts only: no page names an operation. Private. */
export interface DominatedCounty {
  county: Fips;
  species: Eppo;
  group: Group;
  /** Whole plants and all designs together. */
  tested: number;
  /** Of the operation that sent most. */
  largest: number;
  operations: number;
}

/**
 * Counties in which one known operation sent more than a share of the screened populations of a species and group, the
 * most tested first.
 *
 * @param share in 0–1
 * @param fewest counties with fewer populations are left out: there one operation is always most
 */
export async function dominatedCounties(
  db: StaffDatabase,
  of: { species?: Eppo; group?: Group; from: Season; to: Season; share: number; fewest?: number },
): Promise<DominatedCounty[]> {
  const { species = null, group = null, from, to, share, fewest = 5 } = of;
  return db.$client<DominatedCounty[]>`
    with sent as (
      select p.county, p.species, t.group_number, coalesce(p.operation, '') as operation, count(distinct p.id)::int as populations
      from surveillance.test t join surveillance.population p on p.id = t.population_id
      where t.assay = 'whole plant' and t.result in ('resistant', 'some survivors', 'susceptible')
        and p.season between ${from} and ${to}
        and (${species}::text is null or p.species = ${species}) and (${group}::int is null or t.group_number = ${group})
      group by 1, 2, 3, 4)
    select county, species, group_number as "group", sum(populations)::int as tested,
      (max(populations) filter (where operation <> ''))::int as largest, count(*)::int as operations
    from sent group by 1, 2, 3
    having sum(populations) >= ${fewest}
      and max(populations) filter (where operation <> '') > ${share}::float8 * sum(populations)
    order by tested desc, county, species, group_number`;
}
