import type { Region } from '@/lib/geography/types';
import { en } from '../messages/en';
import { countySlug } from '../view/county-slug';
import { NoticePage } from './notice-page';

/** An address that names no county of the region, and all that there are. */
export function UnknownCounty({ asked, region }: { asked: string; region: Region }) {
  return (
    <NoticePage heading={en.county.unknown(asked.slice(0, 60))}>
      <meta name="status" content="404" />
      <p>{en.county.there(region.name)}</p>
      {region.states.map(({ code, name }) => (
        <section key={code} aria-labelledby={`counties-${code}`}>
          <h2 id={`counties-${code}`}>{name}</h2>
          <ul className="counties">
            {region.counties
              .filter(({ state }) => state === code)
              .map((county) => (
                <li key={county.fips}>
                  <a href={`/counties/${countySlug(county)}`}>{county.name}</a>
                </li>
              ))}
          </ul>
        </section>
      ))}
    </NoticePage>
  );
}
