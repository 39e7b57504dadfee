import type { Fips } from '@/lib/vocabulary/terms';

/**
 * Names under which a county is met that no rule of spelling leads to: former names, and short forms in use.
 * `from` is in the normalised spelling of `normalCountyName`.
 * Sources: Shannon → Oglala Lakota (FIPS 46113 → 46102), Wade Hampton → Kusilvak (02270 → 02158) and Bedford city →
 * Bedford County (51515 → 51019): Census Bureau, substantial changes to counties 2010 on (from memory); Dade →
 * Miami-Dade 1997 (12025 → 12086; from memory). "Jeff Davis" for Jefferson Davis: common practice, no source.
 */
export const COUNTY_ALIASES: readonly {
  from: string;
  state: string;
  fips: Fips;
  kind: 'renamed' | 'short form';
}[] = [
  { from: 'shannon', state: 'SD', fips: '46102', kind: 'renamed' },
  { from: 'dade', state: 'FL', fips: '12086', kind: 'renamed' },
  { from: 'chugach', state: 'AK', fips: '02261', kind: 'renamed' },
  { from: 'copperriver', state: 'AK', fips: '02261', kind: 'renamed' },
  { from: 'wadehampton', state: 'AK', fips: '02158', kind: 'renamed' },
  { from: 'jeffdavis', state: 'MS', fips: '28065', kind: 'short form' },
  { from: 'jeffdavis', state: 'LA', fips: '22053', kind: 'short form' },
];

/**
 * Codes → those of the outlines, same sources: retired ones, and the two into which Valdez-Cordova (02261) was parted in
 * 2019 (from memory), which the outlines hold as one.
 */
export const RECODED_FIPS: ReadonlyMap<string, Fips> = new Map([
  ['46113', '46102'],
  ['02270', '02158'],
  ['51515', '51019'],
  ['12025', '12086'],
  ['02063', '02261'],
  ['02066', '02261'],
]);

/**
 * Places that hold one or parts of several counties of the outlines: Connecticut's planning regions, which the Census
 * Bureau counts by since 2022 in place of the eight counties. Which counties they reach into: from memory.
 */
export const WIDER_PLACES: readonly {
  fips: Fips;
  state: string;
  names: readonly string[];
  counties: readonly Fips[];
}[] = [
  region('09110', 'Capitol', ['09003', '09013']),
  region('09120', 'Greater Bridgeport', ['09001']),
  region('09130', 'Lower Connecticut River Valley', ['09007', '09011']),
  region('09140', 'Naugatuck Valley', ['09001', '09003', '09005', '09009']),
  region('09150', 'Northeastern Connecticut', ['09013', '09015']),
  region('09160', 'Northwest Hills', ['09003', '09005']),
  region('09170', 'South Central Connecticut', ['09009']),
  region('09180', 'Southeastern Connecticut', ['09011', '09015']),
  region('09190', 'Western Connecticut', ['09001', '09005']),
];

function region(fips: Fips, name: string, counties: Fips[]) {
  return { fips, state: 'CT', names: [name, `${name} Planning Region`, `${name} COG`], counties };
}
