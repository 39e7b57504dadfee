import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import { viewHref } from '../view/view';
import type { WeedReport, WeedRow } from '../view/weed-report';
import { Fold } from './fold';
import { LooksKey } from './looks-key';
import { StripTable } from './strip-table';

/** States by groups, and below each state’s name its districts. */
export function WeedDistricts({ speech, report }: { speech: Speech; report: WeedReport }) {
  const { texts } = speech;
  const { species, window, groups, states, region } = report;
  const { districts: words } = texts.weed;
  const period = unbroken(periodLabel(window));
  const rowOf = ({ place, numbers }: WeedRow) => ({
    ...{ key: place.key, name: place.name, numbers },
    href: viewHref(speech.language, {
      ...{ species, group: groups[0]!.group, window },
      ...{ by: 'district', place: place.key, release: heldRelease(report) },
    }),
  });
  const table = (rows: readonly WeedRow[], where?: string) => (
    <StripTable
      speech={speech}
      caption={words.caption(texts.weedName(species), period, where)}
      columns={groups.map(({ group }) => sentenceStart(texts.herbicideName(group).short))}
      rows={rows.map(rowOf)}
    />
  );
  return (
    <section className="places" aria-labelledby="districts-heading">
      <h2 id="districts-heading">
        {region.districts.length > 0 ? words.heading(period) : words.states(period)}
      </h2>
      <p className="reading">{words.reading}</p>
      <LooksKey speech={speech} />
      {table(states.map(({ state }) => state))}
      {states
        .filter(({ districts }) => districts.length > 0)
        .map(({ state: { place }, districts }) => (
          <Fold key={place.key} name={texts.trends.districtsOf(place.name)}>
            {table(districts, place.name)}
          </Fold>
        ))}
    </section>
  );
}
