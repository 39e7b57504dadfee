import type { CountyMatch } from '@/lib/geography/names';
import type { County } from '@/lib/geography/types';
import { answers, named } from './confirm-county';
import { countyAt, kmTo, TOLERANCE_KM } from './locate-point';
import type { PlaceContext } from './place-context';
import type { Place, StatedPlace } from './read-place';
import { asks, quoted, type Reading } from './reading';

/**
 * The county of a row that names one. A point decides between counties that share the name, and confirms a misspelling.
 *
 * @param accept what to do with the county found, and the notes on how
 */
export function placeByName(
  stated: StatedPlace,
  context: PlaceContext,
  accept: (county: County, notes: readonly string[]) => Reading<Place>,
): Reading<Place> {
  const { county: text, stateCode, point } = stated;
  const match = context.match(text, stateCode);
  if (match.kind === 'exact') {
    const byNameAlone = stateCode === null && !match.flags.some((flag) => STATE_KNOWN.has(flag));
    return accept(match.county, byNameAlone ? [...match.flags, 'STATE_FROM_COUNTY_NAME'] : match.flags);
  }
  const inside = point && countyAt(context, point);
  if (match.kind === 'ambiguous') {
    const chosen = inside && match.counties.find(({ fips }) => fips === inside.fips);
    if (chosen && kmTo(context, chosen, point) >= TOLERANCE_KM) {
      return accept(chosen, ['COUNTY_FROM_COORD', ...(stateCode === null ? ['STATE_FROM_COORD'] : [])]);
    }
    return whichOfThem(text, stateCode, match.counties, context);
  }
  if (match.kind === 'misspelled') {
    const chosen = inside && match.counties.find(({ fips }) => fips === inside.fips);
    if (chosen && (stateCode === null || chosen.state === stateCode)) {
      return accept(chosen, ['COUNTY_FUZZY', ...(stateCode === null ? ['STATE_FROM_COORD'] : [])]);
    }
  }
  return unknownName(stated, match, inside, context);
}

const STATE_KNOWN: ReadonlySet<string> = new Set(['STATE_FROM_COUNTY_TEXT', 'COUNTY_FIPS']);

function whichOfThem(
  text: string,
  stateCode: string | null,
  counties: readonly County[],
  { states }: PlaceContext,
): Reading<Place> {
  if (stateCode !== null) {
    const reason = `${quoted(text)} may be ${counties.map(named).join(' or ')}.`;
    return asks('county', 'COUNTY_AMBIGUOUS', reason, 'Which one is meant?', {
      candidates: answers(counties),
    });
  }
  const here = [...new Set(counties.map(({ state }) => state))].filter((state) => states.has(state));
  const among = here.length > 0 ? `programme states ${here.join(', ')}` : 'several states';
  const reason = `The state is blank, and ${quoted(text)} is a county in ${among}.`;
  return asks('state', 'STATE_MISSING', reason, 'Which state is meant?', { candidates: here });
}

function unknownName(
  { county: text, stateCode }: StatedPlace,
  match: Exclude<CountyMatch, { kind: 'exact' }>,
  inside: County | null,
  { states }: PlaceContext,
): Reading<Place> {
  const counties = match.kind === 'unknown' ? [] : match.counties;
  const where = stateCode === null ? '' : ` in ${stateCode}`;
  const point = inside ? ` The point lies in ${named(inside)}.` : '';
  const best = counties.filter(({ state }) => states.has(state)).slice(0, 4);
  if (match.kind === 'other state') {
    const reason = `There is no county ${quoted(text)}${where}; there is ${list(best, counties)}.${point}`;
    return asks('county', 'COUNTY_NOT_IN_STATE', reason, 'Is the state wrong, or the county?', {
      candidates: inside ? answers([inside]) : [],
    });
  }
  const remedy = best.length > 0 ? `Is it ${list(best, counties)}?` : 'Which county was the sample taken in?';
  // A misspelling means the same in the laboratory's next sheet.
  return asks('county', 'COUNTY_UNKNOWN', `There is no county ${quoted(text)}${where}.${point}`, remedy, {
    candidates: answers(best),
    memorable: true,
  });
}

function list(best: readonly County[], all: readonly County[]): string {
  return (best.length > 0 ? best : all.slice(0, 4)).map(named).join(' or ');
}
