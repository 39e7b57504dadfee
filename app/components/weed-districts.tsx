import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import { viewHref } from '../view/view';
import type { WeedReport, WeedRow } from '../view/weed-report';
import { LooksKey } from './looks-key';
import { StripTable } from './strip-table';

/** Districts by groups, each state's own numbers above those of its districts. */
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
    ...(place.kind === 'state' && { whole: words.whole }),
  });
  return (
    <section aria-labelledby="districts-heading">
      <h2 id="districts-heading">
        {region.districts.length > 0 ? words.heading(period) : words.states(period)}
      </h2>
      <p className="reading">{words.reading}</p>
      <LooksKey speech={speech} />
      {states.length > 1 ? (
        <nav className="jump" aria-label={words.jump}>
          <span aria-hidden="true">{words.jump}</span>
          <ul>
            {states.map(({ state: { place } }) => (
              <li key={place.key}>
                <a href={`#state-${place.key}`}>{place.name}</a>
              </li>
            ))}
          </ul>
        </nav>
      ) : null}
      <StripTable
        speech={speech}
        caption={words.caption(texts.weedName(species), period)}
        columns={groups.map(({ group }) => sentenceStart(texts.herbicideName(group).short))}
        parts={states.map(({ state, districts }) => ({
          id: `state-${state.place.key}`,
          rows: [state, ...districts].map(rowOf),
        }))}
      />
    </section>
  );
}
