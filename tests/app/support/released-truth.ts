import postgres from 'postgres';

export interface WithheldPlace {
  species: string;
  group: number;
  /** As the address has it: `2022-2024`. */
  window: string;
  county: string;
}

/** A county whose cell in a window of the newest release is withheld, found as the owner of the database. */
export async function withheldPlace(ownerUrl: string): Promise<WithheldPlace> {
  const sql = postgres(ownerUrl, { max: 1, onnotice: () => {} });
  try {
    const [row] = await sql<WithheldPlace[]>`
      select species, group_number as "group", period_first || '-' || period_last as window, place as county
      from release.cell
      where release = (select max(number) from release.release where withdrawn_at is null)
        and place_kind = 'county' and status = 'withheld' and period_last > period_first
        and assay = 'whole plant' and design is null
      order by period_first desc, species, group_number, place
      limit 1`;
    if (!row) throw new Error('The release withholds no county in a window: there is nothing to look for.');
    return row;
  } finally {
    await sql.end();
  }
}
