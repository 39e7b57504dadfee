import postgres from 'postgres';

export interface ReleasedPlace {
  species: string;
  group: number;
  /** As the address has it: `2022-2024`. */
  window: string;
  county: string;
}

/** A county whose cell in a window of the newest release has this status, found as the owner of the database. */
export async function releasedPlace(
  ownerUrl: string,
  status: 'withheld' | 'published',
): Promise<ReleasedPlace> {
  const sql = postgres(ownerUrl, { max: 1, onnotice: () => {} });
  try {
    const [row] = await sql<ReleasedPlace[]>`
      select species, group_number as "group", period_first || '-' || period_last as window, place as county
      from release.cell
      where release = (select max(number) from release.release where withdrawn_at is null)
        and place_kind = 'county' and status = ${status} and period_last > period_first
        and assay = 'whole plant' and design is null
      order by period_first desc, species, group_number, place
      limit 1`;
    if (!row)
      throw new Error(
        `The release has no county in a window that is ${status}: there is nothing to look for.`,
      );
    return row;
  } finally {
    await sql.end();
  }
}

/**
 * A county of the newest release's newest window of which every cell, its areas' too, is withheld; or one of its states
 * (by their FIPS codes) that has no cell at all; or the one with most cells.
 */
export async function releasedCounty(
  ownerUrl: string,
  which: 'all withheld' | 'nothing screened' | 'most cells',
  counties: readonly string[],
): Promise<string> {
  const sql = postgres(ownerUrl, { max: 1, onnotice: () => {} });
  try {
    const rows = await sql<{ county: string; cells: number; withheld: number }[]>`
      with newest as (select max(number) as number from release.release where withdrawn_at is null),
      own as (
        select unnest(string_to_array(place, '+')) as county, status
        from release.cell, newest
        where release = newest.number and place_kind in ('county', 'area') and assay = 'whole plant' and design is null
          and period_first = (
            select max(period_first) from release.cell, newest
            where release = newest.number and place_kind in ('county', 'area')
          )
      )
      select county, count(*)::int as cells, count(*) filter (where status = 'withheld')::int as withheld
      from own group by county order by cells desc, county`;
    const found = {
      'all withheld': rows.find(({ cells, withheld }) => cells === withheld)?.county,
      'nothing screened': counties.find((county) => rows.every((row) => row.county !== county)),
      'most cells': rows[0]?.county,
    }[which];
    if (!found) throw new Error(`The release has no county with ${which}: there is nothing to look for.`);
    return found;
  } finally {
    await sql.end();
  }
}
