import { day } from '@/app/messages/en/format';
import { lastRelease } from '@/db/repositories/last-release';
import { may } from '@/lib/access/rights';
import { countyName } from '@/lib/geography/atlas';
import { staffPage } from './guard/staff-page';
import { WaitsList } from './home/waits-list';
import { whatWaits } from './home/what-waits';
import { homeTexts as texts } from './messages/home';

/** The start of the staff side: what waits, and for an educator the counties. */
export default staffPage('home.see', async ({ db, person, programme }) => {
  const release = await lastRelease(db);
  const isStaff = may(person.roles, 'results.see');
  return {
    title: texts.title(person.name),
    content: (
      <>
        {programme ? null : <p>{texts.start}</p>}
        <p>{release ? texts.release(release.number, day(release.date)) : texts.noRelease}</p>
        {isStaff ? <WaitsList roles={person.roles} waits={await whatWaits(db)} /> : null}
        {person.roles.includes('educator') ? <OwnCounties counties={person.counties} /> : null}
      </>
    ),
  };
});

function OwnCounties({ counties }: { counties: readonly string[] }) {
  return (
    <section aria-labelledby="counties">
      <h2 id="counties">{texts.counties}</h2>
      {counties.length === 0 ? <p>{texts.noCounties}</p> : <p className="quiet">{texts.countiesWhy}</p>}
      <ul className="staff-links">
        {counties.map((fips) => (
          <li key={fips}>
            <a href={`/staff/counties/${fips}`}>{countyName(fips) ?? fips}</a>
          </li>
        ))}
      </ul>
    </section>
  );
}
