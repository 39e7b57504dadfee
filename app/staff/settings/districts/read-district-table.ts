import { parse } from 'csv-parse/sync';
import { UserError } from '@/db/errors';
import type { CountyInDistrict } from '@/db/repositories/districts';
import type { Programme } from '@/db/repositories/programme';
import { loadRegion } from '@/lib/geography/region';
import { states } from '@/lib/geography/states';
import type { District } from '@/lib/geography/types';
import { settingsTexts } from '../../messages/settings';

const texts = settingsTexts.districts;
const REMEDY = `Write one line for each county: ${texts.example}.`;

/** Lines of `FIPS code, code of the district, its name`. @throws UserError that names the line that is none */
export function readDistrictTable(table: string): CountyInDistrict[] {
  const rows = parse(table, { trim: true, skip_empty_lines: true, relax_column_count: true }) as string[][];
  return rows.map((row, at) => {
    const [county = '', code = '', name = ''] = row;
    const isWhole = row.length === 3 && /^\d{5}$/.test(county) && code !== '' && name !== '';
    if (!isWhole) throw new UserError(texts.line(at + 1, texts.parts), REMEDY);
    return { county, code, name };
  });
}

/**
 * The districts of a table, tried on the programme's region.
 *
 * @throws UserError for a county in two districts, in none, or outside the region
 */
export function districtsOf(
  counties: readonly CountyInDistrict[],
  { regionName: name, states: codes }: Programme,
): District[] {
  const districts = new Map<string, District>();
  for (const { county, code, name: district } of counties) {
    const state = states().find(({ fips }) => fips === county.slice(0, 2))?.code ?? county;
    const own = districts.get(`${state}|${code}`) ?? { code, name: district, state, counties: [] };
    own.counties.push(county);
    districts.set(`${state}|${code}`, own);
  }
  const all = [...districts.values()];
  try {
    loadRegion({ name, states: codes, districts: all });
  } catch (error) {
    if (error instanceof RangeError) throw new UserError(error.message, REMEDY);
    throw error;
  }
  return all;
}
