import type { ReleasedCell } from '@/lib/disclosure/types';
import { regionNames } from '@/lib/findings/names';
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

/**
 * The released cube as lines in a fixed order: every place of the region for every period of its tables, so that a
 * place where nothing was screened has a line that says so. In a window a county that is part of an area has no line: its
 * area has. Tables by design and by assay other than whole plant
 * hold a line only where something was screened.
 */
export function* tableRows(
  { head, cube }: Pick<ReleaseDraft, 'head' | 'cube'>,
  region: Region,
): Generator<TableRow> {
  const cells = new Map(cube.cells.map((cell) => [keyOf(cell), cell]));
  const places = placesOf(region);
  const seasons = head.closedSeasons.map((season) => ({ first: season, last: season }));
  const open = head.openSeason === null ? [] : [{ first: head.openSeason, last: head.openSeason }];
  for (const pair of head.pairs) {
    for (const place of places) {
      const wide = place.placeKind === 'region' || place.placeKind === 'state';
      const isJoined = (period: Period) => joinedIn(head, pair, period).has(place.place);
      const shown = seasons.filter(({ first }) => hasSeasonTable(head, place.placeKind, pair, first));
      const periods = [...shown, ...(wide ? open : []), ...head.windows];
      for (const period of periods) {
        if (place.placeKind === 'county' && isJoined(period)) continue;
        const key = { ...place, period, ...pair, assay: 'whole plant' as const, design: null };
        const cell = cells.get(keyOf(key)) ?? null;
        yield {
          ...key,
          pair,
          status: cell?.status ?? 'not screened',
          unfinished: open.includes(period),
          cell,
        };
      }
    }
    for (const window of head.windows) yield* areaRows(window, pair, { head, cells, region });
    for (const cell of cube.cells) {
      if (cell.species !== pair.species || cell.group !== pair.group || isLadderCell(cell)) continue;
      const place = places.find((p) => p.placeKind === cell.placeKind && p.place === cell.place);
      if (place) yield { ...place, ...cell, pair, status: cell.status, cell };
    }
  }
}

/** The counties that are part of an area of several in a window. */
function joinedIn(
  { areas, windows }: ReleaseDraft['head'],
  { species }: Pair,
  { first, last }: Period,
): Set<Fips> {
  const table = windows.some((window) => window.first === first && window.last === last)
    ? areas.find((one) => one.species === species && one.first === first)
    : undefined;
  return new Set(table?.areas.filter(({ length }) => length > 1).flat());
}

function* areaRows(
  period: Period,
  pair: Pair,
  {
    head,
    cells,
    region,
  }: { head: ReleaseDraft['head']; cells: ReadonlyMap<string, ReleasedCell>; region: Region },
): Generator<TableRow> {
  const table = head.areas.find((one) => one.species === pair.species && one.first === period.first);
  const names = regionNames(region, (code) => code);
  const districtName = new Map(region.districts.map(({ code, name }) => [code, name]));
  for (const counties of table?.areas ?? []) {
    if (counties.length === 1) continue;
    const { state, district } = region.counties.find(({ fips }) => fips === counties[0])!;
    const place = { placeKind: 'area' as const, place: counties.join('+') };
    const key = { ...place, period, ...pair, assay: 'whole plant' as const, design: null };
    const cell = cells.get(keyOf(key)) ?? null;
    yield {
      ...key,
      placeName: names.place('area', place.place),
      state,
      district: (district && districtName.get(district)) ?? '',
      pair,
      status: cell?.status ?? 'not screened',
      unfinished: false,
      cell,
    };
  }
}

function isLadderCell({ assay, design }: ReleasedCell): boolean {
  return assay === 'whole plant' && design === null;
}

type Place = Pick<TableRow, 'placeKind' | 'place' | 'placeName' | 'state' | 'district'>;

function placesOf(region: Region): Place[] {
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

function keyOf(
  cell: Pick<ReleasedCell, 'placeKind' | 'place' | 'period' | 'species' | 'group' | 'assay' | 'design'>,
) {
  const { placeKind, place, period, species, group, assay, design } = cell;
  return `${placeKind}|${place}|${period.first}|${period.last}|${species}|${group}|${assay}|${design ?? ''}`;
}
