import { interval, percent } from '@/app/messages/en/format';
import { weedName } from '@/app/messages/en/names';
import { testsOfCounties } from '@/db/repositories/facts';
import { countyName } from '@/lib/geography/atlas';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { DataTable } from '../../components/data-table';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { countiesTexts as texts } from '../../messages/counties';
import { staff } from '../../messages/en';
import { type CountyLine, countyLines } from '../county-lines';
import { seesAllCounties } from '../who-sees';

/** The exact numbers of one county, without its single samples. */
export default staffPage('counties.see', async ({ db, person, params, side }) => {
  const fips = params.county ?? '';
  const name = countyName(fips);
  if (name === null)
    return { title: staff.notFound.heading, status: 404, content: <Sorry text={staff.notFound.text} /> };
  if (!seesAllCounties(person) && !person.counties.includes(fips)) {
    return { title: staff.forbidden.heading, status: 403, content: <Sorry text={texts.notYours} /> };
  }
  const lines = countyLines(await testsOfCounties(db, [fips]));
  return {
    title: texts.of(name),
    cautions: true,
    content: (
      <>
        <p>{texts.intro}</p>
        {lines.length === 0 ? (
          <p>{texts.empty}</p>
        ) : (
          <DataTable caption={texts.caption(name)} columns={texts.columns} rows={lines.map(row)} />
        )}
        <p>
          <a href={`${side.settings.publicSite}/counties/${fips}`}>{texts.public}</a>
        </p>
        <p>
          <a href="/staff/counties">{texts.back}</a>
        </p>
      </>
    ),
  };
});

function row(line: CountyLine) {
  const { species, group, resistant, tested, first, held, operations, seasons } = line;
  return {
    key: `${species}|${group}`,
    cells: [
      texts.weed(weedName(species), group),
      texts.ofScreened(resistant, tested) + (held > 0 ? ` (${texts.held(held)})` : ''),
      `${percent(resistant / tested)}, ${interval(wilsonInterval(resistant, tested))}`,
      first ?? texts.notFound,
      operations,
      seasons.map((one) => `${one.season}: ${texts.ofScreened(one.resistant, one.tested)}`).join('; '),
    ],
  };
}
