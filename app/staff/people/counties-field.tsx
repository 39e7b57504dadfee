import type { Region } from '@/lib/geography/types';
import { TickField } from '../components/field';
import { peopleTexts as texts } from '../messages/people';

/** The counties of the region to tick, state by state; the states that have ticked ones stand open. */
export function CountiesField({ region, chosen }: { region: Region; chosen: readonly string[] }) {
  return (
    <div className="staff-field">
      <p className="staff-label">{texts.counties}</p>
      <p className="staff-hint">{texts.countiesHint}</p>
      {region.states.map(({ code, name }) => {
        const counties = region.counties.filter(({ state }) => state === code);
        const ticked = counties.filter(({ fips }) => chosen.includes(fips)).length;
        return (
          <details key={code} open={ticked > 0}>
            <summary>{texts.ofState(name, ticked, counties.length)}</summary>
            <TickField
              name="counties"
              label={name}
              values={chosen}
              options={counties.map((county) => [county.fips, county.name] as const)}
            />
          </details>
        );
      })}
    </div>
  );
}
