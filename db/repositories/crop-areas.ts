import type { Fips } from '@/lib/vocabulary/terms';
import { insertRows } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { addHistory } from './history';
import { lockImports } from './lock';

/** Area of a crop in a county in a year. */
export interface CropArea {
  /** In lower case, as `sorghum`. */
  crop: string;
  year: number;
  county: Fips;
  hectares: number;
}

/** What is stored of one crop in one year. */
export interface CropTable {
  crop: string;
  year: number;
  counties: number;
  hectares: number;
  /** Name of the file, ISO instant, and who loaded it. */
  source: string;
  loadedAt: string;
  loadedBy: string;
}

/**
 * Stores areas in place of all that was stored of the same crops in the same years: all or nothing.
 *
 * @param areas each crop × year × county once
 * @param source name of the file that told them
 */
export async function replaceCropAreas(
  db: StaffDatabase,
  { areas, source, by }: { areas: readonly CropArea[]; source: string; by: string },
): Promise<void> {
  const tables = new Map(areas.map(({ crop, year }) => [JSON.stringify([crop, year]), { crop, year }]));
  await db.$client.begin(async (sql) => {
    await lockImports(sql);
    for (const { crop, year } of tables.values()) {
      const { count: before } = await sql`
        delete from surveillance.crop_area where crop = ${crop} and year = ${year}`;
      const after = areas.filter((area) => area.crop === crop && area.year === year).length;
      await addHistory(sql, {
        ...{ by, what: 'crop areas loaded', before: { crop, year, counties: before } },
        after: { crop, year, counties: after, source },
      });
    }
    const rows = areas.map((area) => ({ ...area, source, loaded_by: by }));
    await insertRows(sql, 'surveillance.crop_area', COLUMNS, rows);
  });
}

const COLUMNS = ['crop', 'year', 'county', 'hectares', 'source', 'loaded_by'];

/** What is stored, by crop and year. */
export async function listCropTables(db: StaffDatabase): Promise<CropTable[]> {
  return db.$client<CropTable[]>`
    select crop, year, count(*)::int as counties, sum(hectares) as hectares, min(source) as source,
      to_char(min(loaded_at) at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "loadedAt", min(loaded_by) as "loadedBy"
    from surveillance.crop_area group by crop, year order by crop, year`;
}

/**
 * All areas of some crops, by crop, year and county.
 *
 * @param crops all unless given
 */
export async function readCropAreas(db: StaffDatabase, crops?: readonly string[]): Promise<CropArea[]> {
  return db.$client<CropArea[]>`
    select crop, year, county, hectares from surveillance.crop_area
    where ${crops === undefined} or crop = any(${[...(crops ?? [])]})
    order by crop, year, county`;
}

/**
 * Takes out what is stored of a crop in a year, and returns of how many counties.
 * @throws UserError where nothing is stored of it
 */
export async function removeCropAreas(
  db: StaffDatabase,
  { crop, year, by }: { crop: string; year: number; by: string },
): Promise<number> {
  return db.$client.begin(async (sql) => {
    await lockImports(sql);
    const { count } = await sql`
      delete from surveillance.crop_area where crop = ${crop} and year = ${year}`;
    if (count === 0) {
      throw new UserError(
        `No areas of ${crop} in ${year} are stored.`,
        'npm run crops -- list tells which are.',
      );
    }
    await addHistory(sql, { by, what: 'crop areas removed', before: { crop, year, counties: count } });
    return count;
  });
}
