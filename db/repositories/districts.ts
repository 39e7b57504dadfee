import { states } from '@/lib/geography/atlas';
import type { District } from '@/lib/geography/types';
import type { Fips } from '@/lib/vocabulary/terms';
import { insertRows } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { addHistory } from './history';

/** A county and the district that it is in. */
export interface CountyInDistrict {
  county: Fips;
  code: string;
  name: string;
}

/** The programme's own districts with their counties; empty where it brought none. */
export async function listDistricts(db: StaffDatabase): Promise<District[]> {
  const rows = await db.$client<(Omit<District, 'state'> & { stateFips: string })[]>`
    select code, min(name) as name, left(county, 2) as "stateFips", array_agg(county order by county) as counties
    from surveillance.district group by code, left(county, 2) order by 3, 1`;
  return rows.map(({ stateFips, ...district }) => ({
    ...district,
    state: states().find(({ fips }) => fips === stateFips)?.code ?? stateFips,
  }));
}

/**
 * Loads the programme's own districts in place of those that were there; an empty list takes them back. Counties that
 * it does not name are in none.
 *
 * @throws UserError once something was released: what was shown by district must stay comparable
 */
export async function loadDistricts(
  db: StaffDatabase,
  { counties, by }: { counties: readonly CountyInDistrict[]; by: string },
): Promise<void> {
  await db.$client.begin(async (sql) => {
    const [row] = await sql<{ released: boolean }[]>`select exists (select from release.release) as released`;
    if (row!.released) {
      throw new UserError(
        'Districts cannot change any more: a release shows numbers by district, and what it withholds could be worked out from two ways of grouping.',
        'A programme that must regroup its counties starts a database of its own.',
      );
    }
    const before = await sql`select county, code, name from surveillance.district`;
    await sql`delete from surveillance.district`;
    await insertRows(sql, 'surveillance.district', ['county', 'code', 'name'], counties.map(valuesOf));
    await addHistory(sql, { by, what: 'districts loaded', before, after: counties });
  });
}

const valuesOf = ({ county, code, name }: CountyInDistrict) => ({ county, code, name });
