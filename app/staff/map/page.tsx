import { testedPairs } from '@/db/repositories/facts';
import { standingPolicy } from '@/db/repositories/policies';
import { listSeasons } from '@/db/repositories/programme';
import { earlierFirstSeason } from '@/db/repositories/release-overview';
import { fixedWindows } from '@/lib/disclosure/windows';
import type { Period } from '@/lib/vocabulary/terms';
import { staffPage } from '../guard/staff-page';
import { mapTexts as texts } from '../messages/map';
import { staffRegion } from '../region';
import { grainsOf, parseMapView } from './map-view';
import { PrivateMapPage } from './private-map-page';
import { PublicMapPage } from './public-map-page';
import { readPrivateMap } from './read-private-map';
import { readPublicMap } from './read-public-map';
import { ViewForm } from './view-form';

/** The map with exact counts, or the same map as the public sees it. */
export default staffPage('map.see', async ({ db, programme, search }) => {
  const [pairs, seasons, firstReleased, { windowLength }] = await Promise.all([
    testedPairs(db),
    listSeasons(db),
    earlierFirstSeason(db),
    standingPolicy(db),
  ]);
  const years = seasons.map(({ year }) => year);
  const closed = seasons.filter(({ closedAt }) => closedAt).map(({ year }) => year);
  const periods = periodsOf(years, closed, {
    firstSeason: firstReleased ?? years[0] ?? 0,
    length: windowLength,
  });
  const region = programme && staffRegion(programme);
  const view = region && parseMapView(search, { pairs, periods, grains: grainsOf(region) });
  if (!view) return { title: texts.title, content: <p>{texts.nothing}</p> };
  const map = await readPrivateMap(db, view, region);
  const released = view.isPublic ? await readPublicMap(db, view, region) : null;
  return {
    title: texts.title,
    cautions: true,
    content: (
      <>
        <ViewForm
          view={view}
          pairs={pairs}
          periods={periods}
          region={region}
          crops={map.crops}
          funders={map.funders}
        />
        {view.isPublic ? (
          <PublicMapPage view={view} region={region} released={released} simulated={programme.simulated} />
        ) : (
          <PrivateMapPage
            map={map}
            region={region}
            open={years.filter((year) => !closed.includes(year))}
            simulated={programme.simulated}
          />
        )}
      </>
    ),
  };
});

/** All seasons together, windows from the newest on, then season by season from the newest on. */
function periodsOf(
  years: readonly number[],
  closed: readonly number[],
  { firstSeason, length }: { firstSeason: number; length: number },
): Period[] {
  const [first, last] = [years[0], years.at(-1)];
  if (first === undefined || last === undefined) return [];
  const windows = fixedWindows(firstSeason, closed, length).reverse();
  const single = [...years].reverse().map((year) => ({ first: year, last: year }));
  const all = [...windows, { first, last }, ...single];
  return all.filter((one, at) => all.findIndex((o) => o.first === one.first && o.last === one.last) === at);
}
