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
