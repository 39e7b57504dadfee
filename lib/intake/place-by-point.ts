import { saysNothing } from '@/lib/vocabulary/normal-text';
import { answers, named } from './confirm-county';
import { countyAt, kmTo, repaired, TOLERANCE_KM } from './locate-point';
import type { PlaceContext } from './place-context';
import { isTownshipRange } from './read-coordinates';
import type { Place, StatedPlace } from './read-place';
import { asks, quoted, type Reading, read } from './reading';

/** The county of a row that states none. */
export function placeByPoint(
  stated: StatedPlace,
  pointFlags: readonly string[],
  context: PlaceContext,
): Reading<Place> {
  const { point, stateCode } = stated;
  if (!point) return noPlace(stated, pointFlags);
  const county = countyAt(context, point);
  const at = `The point ${point.lat}, ${point.lon}`;
  if (!county) {
    const repair = repaired(context, point);
    const reason = repair
      ? `${at} lies in no county; ${repair.flag === 'COORD_SIGN' ? 'with a minus before the longitude' : 'with latitude and longitude exchanged'} it is in ${named(repair.county)}, but the row states no county.`
      : `${at} lies in no county of the United States.`;
    return asks('lon', repair?.flag ?? 'COORD_OUTSIDE_US', reason, 'Which county was the sample taken in?');
  }
  if (!context.locator.isFarFromLines(point.lon, point.lat) && kmTo(context, county, point) < TOLERANCE_KM) {
    const others = context.locator.countiesWithin(point.lon, point.lat, TOLERANCE_KM);
    const reason = `No county is stated and the point is within 1 km of a county line (${others.map(named).join(', ')}).`;
    return asks('county', 'COUNTY_NEAR_BORDER', reason, 'Which county was the sample taken in?', {
      candidates: answers(others),
    });
  }
  if (stateCode !== null && stateCode !== county.state) {
    const reason = `The row says ${stateCode}, but the point lies in ${named(county)}.`;
    return asks('state', 'STATE_COORD_CONFLICT', reason, 'Which of the two is right?');
  }
  if (!context.states.has(county.state)) {
    const reason = `The point lies in ${named(county)}, outside the programme's region.`;
    return asks('state', 'OUT_OF_REGION', reason, 'Keep it internally, or pass it to that state?');
  }
  const value: Place = { county: county.fips, locatedBy: 'point', certainty: 'computed', ...point };
  const flags = ['COUNTY_FROM_COORD', ...(stateCode === null ? ['STATE_FROM_COORD'] : []), ...pointFlags];
  return read(value, ...flags);
}

function noPlace({ place, zip }: StatedPlace, pointFlags: readonly string[]): Reading<Place> {
  const question = 'Which county was the sample taken in?';
  if (pointFlags.includes('COORD_SYSTEM')) {
    const reason =
      'There is no county, and the coordinates are of a grid (as UTM), not latitude and longitude.';
    return asks('county', 'COORD_SYSTEM', reason, 'Give the county, or latitude and longitude.');
  }
  if (isTownshipRange(place)) {
    const reason = 'There is only township, range and section, without the principal meridian.';
    return asks('county', 'TRS_ONLY', reason, question);
  }
  if (!saysNothing(zip)) {
    const reason = `There is only the ZIP code ${quoted(zip)}, which may reach into several counties.`;
    return asks('county', 'ZIP_ONLY', reason, question);
  }
  const reason =
    pointFlags.length > 0
      ? 'There is no county, and the coordinates cannot be used.'
      : 'There is no county and no coordinates.';
  return asks('county', 'COUNTY_MISSING', reason, question);
}
