import type { MapView } from '@/app/staff/map/map-view';
import { readPrivateMap } from '@/app/staff/map/read-private-map';
import { staffRegion } from '@/app/staff/region';
import type { StaffDatabase } from '@/db/clients';
import { testedPairs, testsOfCounties } from '@/db/repositories/facts';
import { getProgramme, listSeasons } from '@/db/repositories/programme';

interface DeskView {
  name: string;
  /** Everything that the page reads before it draws; says how much it found. */
  read: () => Promise<string>;
}

/** The private views that count: maps of a weed and group with their trends, layer by layer, and one county. */
export async function deskViews(db: StaffDatabase): Promise<DeskView[]> {
  const programme = (await getProgramme(db))!;
  const region = staffRegion(programme);
  const map = (name: string, over: Partial<MapView>): DeskView => ({
    name: `map: ${name}`,
    async read() {
      const [pairs] = await Promise.all([testedPairs(db), listSeasons(db)]);
      const { cells } = await readPrivateMap(db, { ...WHOLE, ...over }, region);
      return `${pairs.length} pairs, ${cells.size} places`;
    },
  });
  return [
    map('a weed and group, all seasons', {}),
    map('two actives of a group', { pair: { species: 'KCHSC', group: 4 } }),
    map('three seasons, by state', { period: { first: 2020, last: 2022 }, by: 'state' }),
    map('one design, crop and funder', { design: 'random', crop: 'wheat', funder: 'Wheat board' }),
    map('one county’s trend, since when', { place: '31109', layer: 'since' }),
    map('who sends most', { layer: 'dominance' }),
    map('rows that wait', { layer: 'questions' }),
    {
      name: 'one county, every weed and group',
      read: async () => `${(await testsOfCounties(db, ['31109'])).length} tests`,
    },
  ];
}

const WHOLE: MapView = {
  ...{ pair: { species: 'KCHSC', group: 9 }, period: { first: 2015, last: 2024 } },
  ...{ by: 'county', layer: 'share', design: null, assay: 'whole plant', crop: null, funder: null },
  ...{ place: 'region', isPublic: false },
};
