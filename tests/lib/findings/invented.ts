import type { PlaceNeighbours } from '@/lib/findings/place-neighbours';
import type { Observation } from '@/lib/findings/types';
import type { Region } from '@/lib/geography/types';

/** Everything here is invented: a land of square counties in rows, named by row and column. */

export const PAIR = { species: 'ABCDE', group: 9 };

export function observation(
  place: string,
  resistant: number,
  tested: number,
  period = { first: 2022, last: 2024 },
  placeKind: Observation['placeKind'] = 'county',
): Observation {
  return { placeKind, place, period, ...PAIR, tested, resistant };
}

export function season(year: number) {
  return { first: year, last: year };
}

export function squareKey(row: number, column: number): string {
  return `r${row}c${column}`;
}

/** Each square touches those beside, above and below it. */
export function squareNeighbours(rows: number, columns: number): PlaceNeighbours {
  const neighbours = new Map<string, string[]>();
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      neighbours.set(
        squareKey(row, column),
        [
          [row - 1, column],
          [row + 1, column],
          [row, column - 1],
          [row, column + 1],
        ]
          .filter(([r, c]) => r! >= 0 && r! < rows && c! >= 0 && c! < columns)
          .map(([r, c]) => squareKey(r!, c!)),
      );
    }
  }
  return neighbours;
}

/** A region of such squares; every two columns are a district. Outlines are left empty: findings do not look at them. */
export function squareRegion(rows: number, columns: number): Region {
  const neighbours = squareNeighbours(rows, columns);
  const keys = [...neighbours.keys()].sort();
  const district = (key: string) => `d${Math.floor(Number(key.split('c')[1]) / 2)}`;
  return {
    name: 'Invented Land',
    states: [{ code: 'ZZ', fips: '99', name: 'Invented' }],
    counties: keys.map((fips) => ({
      fips,
      name: fips,
      fullName: `${fips} County`,
      state: 'ZZ',
      district: district(fips),
      lon: 0,
      lat: 0,
      geometry: { type: 'Polygon', coordinates: [] },
    })),
    districts: [...new Set(keys.map(district))].sort().map((code) => ({
      code,
      name: `District ${code}`,
      state: 'ZZ',
      counties: keys.filter((key) => district(key) === code),
    })),
    neighbours: keys.map((key) =>
      neighbours
        .get(key)!
        .map((other) => keys.indexOf(other))
        .sort((a, b) => a - b),
    ),
  };
}
