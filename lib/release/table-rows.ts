import type { ReleasedCell } from '@/lib/disclosure/types';
import { regionNames } from '@/lib/findings/names';
import { areaKey, areaOfCounty, findAreas, joinedAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { Assay, Design, Fips, Pair, Period, PlaceKey, PlaceKind } from '@/lib/vocabulary/terms';
import { hasSeasonTable } from './season-tables';
import type { ReleaseDraft } from './types';

/** One line of the public table. Withheld, not screened and zero are three different things. */
export interface TableRow {
  placeKind: PlaceKind;
  place: PlaceKey;
  placeName: string;
  state: string;
  district: string;
  period: Period;
  pair: Pair;
  assay: Assay;
  design: Design | null;
  status: 'published' | 'withheld' | 'not screened';
  unfinished: boolean;
  cell: ReleasedCell | null;
}

/** What tables are made of: a release as it is built, or as it was published. */
export interface ShownCells {
  head: ReleaseDraft['head'];
  cube: { cells: readonly ReleasedCell[] };
}

/**
 * The released cube as lines in a fixed order: every place of the region for every period of its tables, so that a
 * place where nothing was screened has a line that says so. In a window a county that is part of an area has no line: its
 * area has. Tables by design and by assay other than whole plant hold a line only where something was screened.
 */
export function* tableRows({ head, cube }: ShownCells, region: Region): Generator<TableRow> {
  const cells = new Map(cube.cells.map((cell) => [keyOf(cell), cell]));
  const places = placesOf(region);
  const areaPlace = areaPlacesOf(region, places);
  const seasons = head.closedSeasons.map((season) => ({ first: season, last: season }));
  const open = head.openSeason === null ? [] : [{ first: head.openSeason, last: head.openSeason }];
  for (const pair of head.pairs) {
    const rowOf = (place: Place, period: Period): TableRow => {
      const key = { ...place, period, ...pair, assay: 'whole plant' as const, design: null };
      const cell = cells.get(keyOf(key)) ?? null;
      return {
        ...key,
        pair,
        status: cell?.status ?? 'not screened',
        unfinished: open.includes(period),
        cell,
      };
    };
    const areas = head.windows.map((window) => findAreas(head.areas, pair.species, window.first));
    const areaOf = new Map<Period, Map<Fips, PlaceKey>>(
      head.windows.map((window, i) => [window, areaOfCounty(areas[i]!)]),
    );
    for (const place of places) {
      const wide = place.placeKind === 'region' || place.placeKind === 'state';
      const shown = seasons.filter(({ first }) => hasSeasonTable(head, place.placeKind, pair, first));
      for (const period of [...shown, ...(wide ? open : []), ...head.windows]) {
        if (place.placeKind === 'county' && areaOf.get(period)?.has(place.place)) continue;
        yield rowOf(place, period);
      }
    }
    for (const [i, window] of head.windows.entries())
      for (const counties of joinedAreas(areas[i]!)) yield rowOf(areaPlace(counties), window);
    for (const cell of cube.cells) {
      if (cell.species !== pair.species || cell.group !== pair.group || isLadderCell(cell)) continue;
      const place = places.find((p) => p.placeKind === cell.placeKind && p.place === cell.place);
      if (place) yield { ...place, ...cell, pair, status: cell.status, cell };
    }
  }
}

function isLadderCell({ assay, design }: ReleasedCell): boolean {
  return assay === 'whole plant' && design === null;
}

/** A place as tables name it. */
export type Place = Pick<TableRow, 'placeKind' | 'place' | 'placeName' | 'state' | 'district'>;

/** Region, states, districts and counties, in the order of tables. */
export function placesOf(region: Region): Place[] {
  const districtName = new Map(region.districts.map((district) => [district.code, district.name]));
  return [
    { placeKind: 'region', place: 'region', placeName: region.name, state: '', district: '' },
    ...region.states.map(({ code, name }) => ({
      placeKind: 'state' as const,
      place: code,
      placeName: name,
      state: code,
      district: '',
    })),
    ...region.districts.map(({ code, name, state }) => ({
      placeKind: 'district' as const,
      place: code,
      placeName: name,
      state,
      district: name,
    })),
    ...region.counties.map(({ fips, fullName, state, district }) => ({
      placeKind: 'county' as const,
      place: fips,
      placeName: fullName,
      state,
      district: (district && districtName.get(district)) ?? '',
    })),
  ];
}

/** Places of areas, which lie where their counties lie. */
export function areaPlacesOf(region: Region, places: readonly Place[]): (counties: readonly Fips[]) => Place {
  const names = regionNames(region, (code) => code);
  const countyOf = new Map(
    places.filter(({ placeKind }) => placeKind === 'county').map((one) => [one.place, one]),
  );
  return (counties) => {
    const { state, district } = countyOf.get(counties[0]!)!;
    const place = areaKey(counties);
    return { placeKind: 'area', place, placeName: names.place('area', place), state, district };
  };
}

function keyOf(
  cell: Pick<ReleasedCell, 'placeKind' | 'place' | 'period' | 'species' | 'group' | 'assay' | 'design'>,
) {
  const { placeKind, place, period, species, group, assay, design } = cell;
  return `${placeKind}|${place}|${period.first}|${period.last}|${species}|${group}|${assay}|${design ?? ''}`;
}
