import type { County } from '@/lib/geography/types';
import { countyAt, kmTo, repaired, TOLERANCE_KM } from './locate-point';
import type { PlaceContext } from './place-context';
import type { Certainty, Place, StatedPlace } from './read-place';
import { asks, quoted, type Reading, read } from './reading';
import towns from './towns.json';

/** Holds a stated county against the row's point, where it has one. */
export function confirmCounty(county: County, stated: StatedPlace, context: PlaceContext): Reading<Place> {
  const { point, pointFlags } = stated;
  if (!point) {
    const town = townInstead(county, stated, context);
    const value: Place = {
      county: county.fips,
      locatedBy: 'county',
      certainty: 'stated',
      lat: null,
      lon: null,
    };
    return town ? placeOrCounty(county, town) : read(value, ...pointFlags);
  }
  const confirmed = (certainty: Certainty, at: typeof point, ...flags: string[]) => {
    const value: Place = { county: county.fips, locatedBy: 'county and point', certainty, ...at };
    return read(value, ...flags, ...pointFlags);
  };
  const found = countyAt(context, point);
  if (found?.fips === county.fips) return confirmed('confirmed', point);
  if (kmTo(context, county, point) <= TOLERANCE_KM) return confirmed('tolerated', point, 'BORDER_TOLERANCE');
  if (found) return conflict(county, found, point);

  const repair = repaired(context, point);
  if (repair?.county.fips === county.fips) return confirmed('repaired', repair.point, repair.flag);
  const near = context.locator.countiesWithin(point.lon, point.lat, 50).length > 0;
  const where = near ? 'just outside all counties' : 'outside the United States';
  const hint = repair ? ` Repaired, it would lie in ${named(repair.county)}.` : '';
  const reason = `The point ${point.lat}, ${point.lon} lies ${where}; the row says ${named(county)}.${hint}`;
  return asks(
    'lon',
    near ? 'COUNTY_COORD_CONFLICT' : 'COORD_OUTSIDE_US',
    reason,
    'What are the coordinates?',
  );
}

function conflict(county: County, found: County, point: { lat: number; lon: number }): Reading<Place> {
  const reason = `The row says ${named(county)}, but the point ${point.lat}, ${point.lon} lies in ${named(found)}.`;
  return asks('county', 'COUNTY_COORD_CONFLICT', reason, 'Which of the two is right?', {
    candidates: answers([county, found]),
  });
}

/** A town of the same name in another county, when the notes speak of a place and not of the county. */
function townInstead(county: County, stated: StatedPlace, context: PlaceContext): County | null {
  if (/count|\bco\b|cnty|parish|\d/i.test(stated.county)) return null;
  const town = towns.towns.find(({ state, name }) => state === county.state && name === county.name);
  if (!town) return null;
  const mention = new RegExp(`\\b${county.name}\\b(?!\\s*(?:co\\b|county|cnty|parish))`, 'i');
  if (!mention.test(stated.place)) return null;
  const match = context.match(town.in, null);
  return match.kind === 'exact' ? match.county : null;
}

function placeOrCounty(county: County, other: County): Reading<Place> {
  const reason = `${quoted(county.name)} is a county (${county.fips}) and a town in ${named(other)}; the notes speak of the town.`;
  return asks('county', 'PLACE_OR_COUNTY', reason, 'In which county was the sample taken?', {
    candidates: answers([county, other]),
  });
}

/** Texts of the county cell that would answer: `Lancaster County, NE`. */
export function answers(counties: readonly County[]): string[] {
  return counties.slice(0, 8).map(({ fullName, state }) => `${fullName}, ${state}`);
}

/** `Lancaster County, NE (31109)`. */
export function named({ fullName, state, fips }: County): string {
  return `${fullName}, ${state} (${fips})`;
}
