import { STATE_ABBREVIATIONS } from './state-abbreviations';
import type { State } from './types';

/**
 * States and territories of the county outlines, by two-digit FIPS code, with postal abbreviation and name.
 * Source: ANSI INCITS 38 (FIPS 5-2) as listed by the Census Bureau; from memory, checked against the names in
 * us-atlas 3.0.1 by a test.
 */
const TABLE = `01 AL Alabama|02 AK Alaska|04 AZ Arizona|05 AR Arkansas|06 CA California|08 CO Colorado|09 CT Connecticut
10 DE Delaware|11 DC District of Columbia|12 FL Florida|13 GA Georgia|15 HI Hawaii|16 ID Idaho|17 IL Illinois
18 IN Indiana|19 IA Iowa|20 KS Kansas|21 KY Kentucky|22 LA Louisiana|23 ME Maine|24 MD Maryland
25 MA Massachusetts|26 MI Michigan|27 MN Minnesota|28 MS Mississippi|29 MO Missouri|30 MT Montana|31 NE Nebraska
32 NV Nevada|33 NH New Hampshire|34 NJ New Jersey|35 NM New Mexico|36 NY New York|37 NC North Carolina
38 ND North Dakota|39 OH Ohio|40 OK Oklahoma|41 OR Oregon|42 PA Pennsylvania|44 RI Rhode Island
45 SC South Carolina|46 SD South Dakota|47 TN Tennessee|48 TX Texas|49 UT Utah|50 VT Vermont|51 VA Virginia
53 WA Washington|54 WV West Virginia|55 WI Wisconsin|56 WY Wyoming|60 AS American Samoa|66 GU Guam
69 MP Commonwealth of the Northern Mariana Islands|72 PR Puerto Rico|78 VI United States Virgin Islands`;

const STATES: readonly State[] = TABLE.split(/[|\n]/).map((entry) => ({
  fips: entry.slice(0, 2),
  code: entry.slice(3, 5),
  name: entry.slice(6),
}));

/** All states and territories, ascending by FIPS code. */
export function states(): readonly State[] {
  return STATES;
}

/**
 * The state that a text names: postal or traditional abbreviation (`Neb.`, `S. Dak.`), full name or two-digit FIPS code,
 * in any case.
 * Returns null when it names none.
 */
export function findState(text: string): State | null {
  const wanted = text
    .trim()
    .toLowerCase()
    .replace(/[.\s]+/g, ' ')
    .trim();
  if (wanted === '') return null;
  return (
    STATES.find(
      (state) =>
        state.code.toLowerCase() === wanted ||
        state.name.toLowerCase() === wanted ||
        state.fips === wanted.padStart(2, '0'),
    ) ??
    BY_ABBREVIATION.get(wanted) ??
    STATES.find((state) => state.code.toLowerCase() === wanted.replaceAll(' ', '')) ??
    null
  );
}

const BY_ABBREVIATION: ReadonlyMap<string, State> = new Map(
  STATES.flatMap((state) =>
    (STATE_ABBREVIATIONS[state.code]?.split('|') ?? []).map((text) => [text, state] as const),
  ),
);
