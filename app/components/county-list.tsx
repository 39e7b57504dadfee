import type { Region } from '@/lib/geography/types';
import type { Speech } from '../messages/texts';
import { countySlug } from '../view/county-slug';
import '../styles/counties.css';

/** All counties of a region by state, each with the address of its page. */
export function CountyList({ speech, region }: { speech: Speech; region: Region }) {
  return region.states.map(({ code, name }) => (
    <section key={code} aria-labelledby={`counties-${code}`}>
      <h2 id={`counties-${code}`}>{name}</h2>
      <ul className="counties">
        {region.counties
          .filter(({ state }) => state === code)
          .map((county) => (
            <li key={county.fips}>
              <a href={speech.at(`/counties/${countySlug(county)}`)}>{county.name}</a>
            </li>
          ))}
      </ul>
    </section>
  ));
}
