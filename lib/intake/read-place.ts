import type { County } from '@/lib/geography/types';
import type { Fips } from '@/lib/vocabulary/terms';
import { isBlankCell } from './blank-cell';
import { confirmCounty } from './confirm-county';
import type { Point } from './locate-point';
import { placeByName } from './place-by-name';
import { placeByPoint } from './place-by-point';
import type { PlaceContext } from './place-context';
import { isGrid, isTownshipRange, readCoordinates } from './read-coordinates';
import { asks, quoted, type Reading } from './reading';

/** By what a row's county is known. */
export type LocatedBy = 'county' | 'county and point' | 'point';

/**
 * How sure a county is. `confirmed`: name and point agree. `stated`: a name without a point. `tolerated`: the point lies
 * at most 1 km outside the county named. `repaired`: they agree once the point's swapped or unsigned coordinates are put
 * right. `computed`: a point alone, at least 1 km inside.
 */
export type Certainty = 'confirmed' | 'stated' | 'tolerated' | 'repaired' | 'computed';

export interface Place {
  county: Fips;
  locatedBy: LocatedBy;
  certainty: Certainty;
  /** Degrees; null where the row has no usable point. */
  lat: number | null;
  lon: number | null;
}

/** All that is asked for a row's place. */
export const PLACE_COLUMNS = ['state', 'county', 'lat', 'lon', 'place', 'zip'] as const;

export type PlaceCells = Readonly<Record<(typeof PLACE_COLUMNS)[number], string>>;

/** What the cells say of the place, before they are held against each other. */
export interface StatedPlace extends PlaceCells {
  /** Postal abbreviation, or null where the state cell is blank. */
  stateCode: string | null;
  point: Point | null;
  pointFlags: readonly string[];
}

/**
 * The county of a row, from its state, county and coordinate cells, which must agree; nearby beyond the line is still
 * agreement. A point alone is enough away from county lines, a county alone always. What disagrees, is spelled so that
 * no coordinates confirm it, lies outside the region, or may be two places is a question.
 */
export function readPlace(cells: PlaceCells, context: PlaceContext): Reading<Place> {
  const state = context.state(cells.state);
  if (!state && !isBlankCell(cells.state)) {
    const reason = `State ${quoted(cells.state)} is not known.`;
    return asks('state', 'STATE_UNKNOWN', reason, 'Which state is meant? Use its postal abbreviation.');
  }
  if (state && !context.states.has(state.code)) return outOfRegion(state.name);

  const { point, flags } = readCoordinates(cells.lat, cells.lon);
  const { county, lat, lon, place, zip } = cells;
  const stated = {
    state: cells.state,
    county,
    lat,
    lon,
    place,
    zip,
    stateCode: state?.code ?? null,
    point,
    pointFlags: flags,
  };
  const reading = isBlankCell(cells.county)
    ? placeByPoint(stated, withGrid(stated), context)
    : placeByName(stated, context, (county, notes) => inRegion(county, stated, notes, context));
  const isNamed = state !== null && cells.state.trim().toUpperCase() !== state.code;
  const isPrivate = reading.value !== null && cells.place !== '' && isTownshipRange(cells.place);
  if (!isNamed && !isPrivate) return reading;
  const allFlags = [
    ...(isNamed ? ['STATE_NAME'] : []),
    ...reading.flags,
    ...(isPrivate ? ['TRS_TEXT_KEPT_PRIVATE'] : []),
  ];
  return { ...reading, flags: allFlags };
}

function inRegion(
  county: County,
  stated: StatedPlace,
  notes: readonly string[],
  context: PlaceContext,
): Reading<Place> {
  if (!context.states.has(county.state)) return outOfRegion(`${county.fullName}, ${county.state}`);
  const reading = confirmCounty(county, stated, context);
  return { ...reading, flags: [...notes, ...reading.flags] };
}

function outOfRegion(what: string): Reading<Place> {
  const remedy = 'Keep it internally, or pass it to that state?';
  return asks('state', 'OUT_OF_REGION', `${what} is outside the programme's region.`, remedy);
}

/** Flags of the point cells, with a grid reference in the notes counted in. */
function withGrid({ pointFlags, place }: StatedPlace): readonly string[] {
  return pointFlags.length === 0 && isGrid(place) ? ['COORD_SYSTEM'] : pointFlags;
}
