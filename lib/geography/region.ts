import { neighbors } from 'topojson-client';
import topology from 'us-atlas/counties-10m.json';
import { atlasCounties } from './atlas';
import { states as allStates } from './states';
import type { District, Region } from './types';

/**
 * Assembles a region from the county outlines of some states.
 *
 * @param name what the programme calls its area
 * @param states two-letter postal abbreviations, in any order
 * @param districts the programme's own grouping of counties; empty where it has none
 * @returns counties ascending by FIPS; neighbours are counties that share at least one arc of the topology, so a
 *   common corner is no neighbourhood (rook contiguity) and a county across the region's line is none either
 * @throws RangeError for an unknown state, for a district that names a county outside its state, or for a county in
 *   two districts or in none while others have one
 */
export function loadRegion({
  name,
  states,
  districts = [],
}: {
  name: string;
  states: readonly string[];
  districts?: readonly District[];
}): Region {
  const chosen = allStates().filter((state) => states.includes(state.code));
  const unknown = states.filter((code) => !chosen.some((state) => state.code === code));
  if (unknown.length > 0 || chosen.length === 0) {
    throw new RangeError(
      `No such state: ${unknown.join(', ') || '(none given)'}. Use postal abbreviations, as NE,KS.`,
    );
  }
  const districtOf = districtByCounty(districts);
  const codes = new Set(chosen.map((state) => state.code));
  const counties = atlasCounties()
    .filter((county) => codes.has(county.state))
    .map((county) => ({ ...county, district: districtOf.get(county.fips) ?? null }));
  checkDistricts(districts, counties);
  return { name, states: chosen, counties, districts: [...districts], neighbours: neighboursOf(counties) };
}

function neighboursOf(counties: readonly { fips: string }[]): number[][] {
  const geometryOf = new Map(topology.objects.counties.geometries.map((g) => [String(g.id), g]));
  // A county whose own parts share an arc is named as its own neighbour.
  return neighbors(counties.map((county) => geometryOf.get(county.fips)!)).map((list, i) =>
    list.filter((other) => other !== i).sort((a, b) => a - b),
  );
}

function districtByCounty(districts: readonly District[]): Map<string, string> {
  const districtOf = new Map<string, string>();
  for (const district of districts) {
    for (const fips of district.counties) {
      const other = districtOf.get(fips);
      if (other) throw new RangeError(`County ${fips} is in two districts: ${other} and ${district.code}.`);
      districtOf.set(fips, district.code);
    }
  }
  return districtOf;
}

function checkDistricts(districts: readonly District[], counties: Region['counties']): void {
  if (districts.length === 0) return;
  const stateOf = new Map(counties.map((county) => [county.fips, county.state]));
  for (const district of districts) {
    const stray = district.counties.find((fips) => stateOf.get(fips) !== district.state);
    if (stray)
      throw new RangeError(
        `District ${district.code} names county ${stray}, which is not in ${district.state}.`,
      );
  }
  const without = counties.find((county) => county.district === null);
  if (without)
    throw new RangeError(`County ${without.fips} (${without.fullName}) is in no district; the others are.`);
}
