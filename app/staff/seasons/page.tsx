import { standingPolicy } from '@/db/repositories/policies';
import { earlierFirstSeason } from '@/db/repositories/release-overview';
import { type SeasonLine, seasonOverview } from '@/db/repositories/season-overview';
import { may } from '@/lib/access/rights';
import { DataTable } from '../components/data-table';
import { staffPage } from '../guard/staff-page';
import { seasonTexts as texts } from '../messages/seasons';
import { CloseSeason } from './close-season';

/** All seasons, what is unsettled in them, and what closing one would do. */
export default staffPage('seasons.see', async ({ db, person }) => {
  const [seasons, firstReleased, { windowLength }] = await Promise.all([
    seasonOverview(db),
    earlierFirstSeason(db),
    standingPolicy(db),
  ]);
  const open = seasons.filter(({ closedAt }) => closedAt === null).reverse();
  const firstSeason = firstReleased ?? seasons.at(-1)?.year ?? 0;
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        {seasons.length === 0 ? (
          <p>{texts.none}</p>
        ) : (
          <DataTable caption={texts.caption} columns={texts.columns} rows={seasons.map(row)} />
        )}
        {open.map((season) => (
          <CloseSeason
            key={season.year}
            season={season}
            seasons={seasons}
            firstSeason={firstSeason}
            windowLength={windowLength}
            mayClose={may(person.roles, 'seasons.close')}
          />
        ))}
      </>
    ),
  };
});

function row(season: SeasonLine) {
  const { year, closedAt, populations, screened, operations, untold, questions, finds } = season;
  return {
    key: year,
    cells: [
      year,
      closedAt ? texts.closedOn(closedAt) : texts.open,
      populations,
      screened,
      season.public,
      operations,
      untold,
      questions,
      finds,
    ],
  };
}
