import type { County, Region } from '@/lib/geography/types';

/** Invented for the tests: two states of square counties, one degree wide, three by two; no such place exists. */
export function inventedSquares(): Region {
  const counties = [0, 1, 2].flatMap((column) =>
    [0, 1].map((row): County => {
      const [west, south] = [-100 + column, 40 + row];
      const state = column < 2 ? 'AA' : 'BB';
      const fips = `9${column}00${row}`;
      return {
        fips,
        name: `Square ${fips}`,
        fullName: `Square ${fips} County`,
        state,
        district: column === 0 ? 'AA-1' : column === 1 ? 'AA-2' : 'BB-1',
        lon: west + 0.5,
        lat: south + 0.5,
        geometry: {
          type: 'Polygon',
          coordinates: [
            [
              [west, south],
              [west, south + 1],
              [west + 1, south + 1],
              [west + 1, south],
              [west, south],
            ],
          ],
        },
      };
    }),
  );
  const district = (code: string, state: string) => ({
    code,
    name: `District ${code}`,
    state,
    counties: counties.filter((county) => county.district === code).map(({ fips }) => fips),
  });
  return {
    name: 'Invented squares',
    states: [
      { code: 'AA', fips: '90', name: 'Aland' },
      { code: 'BB', fips: '92', name: 'Beland' },
    ],
    counties: counties.sort((a, b) => (a.fips < b.fips ? -1 : 1)),
    districts: [district('AA-1', 'AA'), district('AA-2', 'AA'), district('BB-1', 'BB')],
    neighbours: [],
  };
}
