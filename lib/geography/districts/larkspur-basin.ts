import type { District } from '../types';
import table from './larkspur-basin.json';

/**
 * The districts of the demonstration's region, ascending by code: contiguous groups of 8 to 13 counties of one state.
 * They are invented (see the file's `about`); a programme brings its own grouping or none.
 */
export function larkspurBasinDistricts(): District[] {
  const districts = new Map<string, District>();
  for (const { fips, state, district: code, districtName: name } of table.counties) {
    const district = districts.get(code) ?? { code, name, state, counties: [] };
    district.counties.push(fips);
    districts.set(code, district);
  }
  return [...districts.values()].sort((a, b) => (a.code < b.code ? -1 : 1));
}
