import { editDistance } from '@/lib/vocabulary/edit-distance';
import { COUNTY_ALIASES, RECODED_FIPS, WIDER_PLACES } from './county-aliases';
import { findState } from './states';
import type { County, State } from './types';

/** How a county was written, where that differs from its plain name. */
export type NameFlag =
  | 'COUNTY_ALIAS'
  | 'COUNTY_RENAMED'
  | 'COUNTY_FIPS'
  | 'FIPS_LEADING_ZERO'
  | 'STATE_FROM_COUNTY_TEXT';

export type CountyMatch =
  | { kind: 'exact'; county: County; flags: NameFlag[] }
  /** Several counties carry the name: two in the stated state, or one in several states where none is stated. */
  | { kind: 'ambiguous'; counties: County[] }
  /** No county is spelled so; these are within two letters of it, those of the stated state first. */
  | { kind: 'misspelled'; counties: County[] }
  /** The stated state has no such county, others have. */
  | { kind: 'other state'; counties: County[] }
  | { kind: 'unknown' };

const MISSPELLING_LIMIT = 2;

/**
 * The county that a text names, as people write it: case, suffix words ("Co.", "Cnty", "Parish"), Saint and St.,
 * blanks ("La Salle", "LaSalle"), apostrophes and accents do not matter; a five-digit FIPS code, one that lost its
 * leading zero, or a three-digit code when the state is known; "Lancaster, NE" where no state is stated; former names.
 * A name never decides between two counties that share it: that is `ambiguous`.
 *
 * @param text the county column as sent
 * @param state postal abbreviation that the sheet states, or null
 * @param counties those to choose from; misspellings are sought among the stated state's first
 */
export function findCountyByName(
  text: string,
  state: string | null,
  counties: readonly County[],
): CountyMatch {
  const trimmed = text.trim();
  if (trimmed === '') return { kind: 'unknown' };
  if (/^\d+$/.test(trimmed)) return byCode(trimmed, state, counties);
  const [name, named] = apart(trimmed, state);
  if (named && (state === null || state === named.code)) {
    const match = byName(name, named.code, counties);
    if (match.kind === 'exact' && state === null) match.flags.push('STATE_FROM_COUNTY_TEXT');
    return match;
  }
  return byName(trimmed, state, counties);
}

/** The county and the state of `Lancaster, NE`, `Lancaster (NE)` or `NE - Lancaster`; the one stated where both could be. */
function apart(text: string, stated: string | null): [name: string, state: State | null] {
  const [, before, rest = text] = /^([A-Za-z. ]{2,}?)\s*(?:-|:|\/)\s*(\S.*)$/.exec(text) ?? [];
  const inFront = before === undefined ? null : findState(before);
  if (inFront && before === inFront.code) return [rest, inFront];
  const [, name = text, after] = /^(.*\S)\s*(?:,\s*|\s\(|\s-\s)([A-Za-z. ]{2,}?)\)?$/.exec(text) ?? [];
  const behind = after === undefined ? null : findState(after);
  if (behind && (stated === null || behind.code === stated)) return [name, behind];
  return inFront ? [rest, inFront] : [text, null];
}

/** Lower case without accents, suffix words, punctuation and blanks; Saint and St are one, and so are Sainte and Ste. */
export function normalCountyName(text: string): string {
  return unaccented(text)
    .replace(/\b(county of|county|counties|co|cnty|cty|parish|par|borough|census area|municipality)\b/g, ' ')
    .replace(/\bsainte\b/g, 'ste')
    .replace(/\bsaint\b/g, 'st')
    .replace(/[^a-z0-9]/g, '');
}

function unaccented(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/['’‘`]/g, '')
    .replace(/\./g, ' ');
}

function byCode(code: string, state: string | null, counties: readonly County[]): CountyMatch {
  const stateFips = state === null ? undefined : findState(state)?.fips;
  const fips = code.length <= 3 && stateFips ? stateFips + code.padStart(3, '0') : code.padStart(5, '0');
  const county = counties.find((c) => c.fips === (RECODED_FIPS.get(fips) ?? fips));
  if (!county)
    return (
      widerPlace(
        WIDER_PLACES.find((place) => place.fips === fips),
        state,
        counties,
      ) ?? { kind: 'unknown' }
    );
  if (state !== null && county.state !== state) return { kind: 'other state', counties: [county] };
  const flags: NameFlag[] = ['COUNTY_FIPS'];
  if (code.length === 4) flags.push('FIPS_LEADING_ZERO');
  if (county.fips !== fips) flags.push('COUNTY_RENAMED');
  return { kind: 'exact', county, flags };
}

function byName(text: string, state: string | null, counties: readonly County[]): CountyMatch {
  const wanted = normalCountyName(text);
  const here = state === null ? counties : counties.filter((county) => county.state === state);
  const exact = sameName(here, wanted, text);
  if (exact.length === 1) {
    return { kind: 'exact', county: exact[0]!, flags: text === exact[0]!.name ? [] : ['COUNTY_ALIAS'] };
  }
  if (exact.length > 1) return { kind: 'ambiguous', counties: exact };

  const alias = COUNTY_ALIASES.filter(
    (a) => a.from === wanted && (state === null || a.state === state) && here.some((c) => c.fips === a.fips),
  );
  if (alias.length === 1) {
    const county = here.find((c) => c.fips === alias[0]!.fips)!;
    return {
      kind: 'exact',
      county,
      flags: [alias[0]!.kind === 'renamed' ? 'COUNTY_RENAMED' : 'COUNTY_ALIAS'],
    };
  }

  const wider = WIDER_PLACES.find(({ names }) => names.some((name) => normalCountyName(name) === wanted));
  const parts = widerPlace(wider, state, counties);
  if (parts) return parts;

  const elsewhere = sameName(counties, wanted, text);
  const near = nearest(here, wanted);
  if (near.length > 0) return { kind: 'misspelled', counties: [...near, ...elsewhere] };
  if (elsewhere.length > 0) return { kind: 'other state', counties: elsewhere };
  return { kind: 'unknown' };
}

/** A place that is no county of the outlines: the county that holds it, or those that it reaches into. */
function widerPlace(
  place: (typeof WIDER_PLACES)[number] | undefined,
  state: string | null,
  counties: readonly County[],
): CountyMatch | null {
  if (!place || (state !== null && place.state !== state)) return null;
  const held = counties.filter(({ fips }) => place.counties.includes(fips));
  if (held.length === 0) return null;
  return held.length === 1
    ? { kind: 'exact', county: held[0]!, flags: ['COUNTY_RENAMED'] }
    : { kind: 'ambiguous', counties: held };
}

/** A text that says "city" or "county" chooses between the pairs that share a name. */
function sameName(counties: readonly County[], wanted: string, text: string): County[] {
  const cityText = unaccented(text).match(/^\s*city of (.+)$|^(.+?) city\s*$/);
  const city = cityText && normalCountyName(cityText[1] ?? cityText[2]!);
  const saysCounty = /\b(county|co|cnty)\b/.test(unaccented(text));
  const isCity = (county: County) => /\bcity$/i.test(county.fullName) && !/\bcity$/i.test(county.name);
  return counties.filter((county) => {
    const name = normalCountyName(county.name);
    if (city && name === city) return isCity(county);
    if (name !== wanted) return false;
    return !(saysCounty && isCity(county));
  });
}

function nearest(counties: readonly County[], wanted: string): County[] {
  const scored = counties
    .map((county) => ({
      county,
      distance: editDistance(wanted, normalCountyName(county.name), MISSPELLING_LIMIT),
    }))
    .filter(({ distance }) => distance <= MISSPELLING_LIMIT && distance < wanted.length / 2);
  const best = Math.min(...scored.map(({ distance }) => distance));
  return scored.filter(({ distance }) => distance === best).map(({ county }) => county);
}
