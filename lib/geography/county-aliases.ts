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
  { from: 'wadehampton', state: 'AK', fips: '02158', kind: 'renamed' },
  { from: 'jeffdavis', state: 'MS', fips: '28065', kind: 'short form' },
  { from: 'jeffdavis', state: 'LA', fips: '22053', kind: 'short form' },
];

/** Retired codes → today's, same sources. */
export const RECODED_FIPS: ReadonlyMap<string, Fips> = new Map([
  ['46113', '46102'],
  ['02270', '02158'],
  ['51515', '51019'],
  ['12025', '12086'],
]);
