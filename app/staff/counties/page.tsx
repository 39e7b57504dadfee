import { populationsByCounty } from '@/db/repositories/facts';
import { countyName } from '@/lib/geography/atlas';
import { DataTable } from '../components/data-table';
import { staffPage } from '../guard/staff-page';
import { countiesTexts as texts } from '../messages/counties';
import { seesAllCounties } from './who-sees';

/** The counties whose exact numbers somebody may see. */
export default staffPage('counties.see', async ({ db, person }) => {
  const counts = await populationsByCounty(db);
  const sees = seesAllCounties(person) ? counts.map(({ county }) => county) : person.counties;
  const known = new Map(counts.map((count) => [count.county, count]));
  const rows = sees.map((fips) => {
    const count = known.get(fips);
    return {
      key: fips,
      cells: [
        <a key="name" href={`/staff/counties/${fips}`}>
          {countyName(fips) ?? fips}
        </a>,
        count?.populations ?? texts.nothing,
        count?.lastSeason ?? '',
      ],
    };
  });
  return {
    title: texts.title,
    cautions: true,
    content:
      rows.length === 0 ? (
        <p>{texts.none}</p>
      ) : (
        <>
          <p>{seesAllCounties(person) ? texts.all : texts.own}</p>
          <DataTable caption={texts.listCaption} columns={texts.listColumns} rows={rows} />
        </>
      ),
  };
});
