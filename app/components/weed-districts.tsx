import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { viewHref } from '../view/view';
import type { WeedReport, WeedRow } from '../view/weed-report';
import { LooksKey } from './looks-key';
import { WeedCell } from './weed-cell';

/**
 * Districts by groups, each state's own numbers above those of its districts. One table: side by side where there is
 * room, a block for each place on a phone. Its roles are said outright, because a block is no table to a browser.
 */
export function WeedDistricts({ speech, report }: { speech: Speech; report: WeedReport }) {
  const { texts } = speech;
  const { species, window, groups, states, region } = report;
  const { districts: words } = texts.weed;
  const period = unbroken(periodLabel(window));
  const shorts = groups.map(({ group }) => texts.herbicideName(group).short);
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
      {/* biome-ignore lint/a11y/noRedundantRoles: styles make blocks of it on a phone, which takes its roles away */}
      <table className="weed-table" role="table">
        <caption>{words.caption(texts.weedName(species), period)}</caption>
        {/* biome-ignore lint/a11y/noRedundantRoles: as above */}
        <thead role="rowgroup">
          {/* biome-ignore lint/a11y/noRedundantRoles: as above */}
          <tr role="row">
            {/* biome-ignore lint/a11y/noRedundantRoles: as above */}
            <th scope="col" role="columnheader">
              {words.place}
            </th>
            {shorts.map((short) => (
              // biome-ignore lint/a11y/noRedundantRoles: as above
              <th scope="col" role="columnheader" key={short}>
                {sentenceStart(short)}
              </th>
            ))}
          </tr>
        </thead>
        {states.map(({ state, districts }) => (
          // biome-ignore lint/a11y/noRedundantRoles: as above
          <tbody key={state.place.key} id={`state-${state.place.key}`} role="rowgroup">
            {[state, ...districts].map((row) => (
              <Row key={row.place.key} speech={speech} report={report} row={row} shorts={shorts} />
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}

function Row({
  speech,
  report: { species, groups, window },
  row: { place, numbers },
  shorts,
}: {
  speech: Speech;
  report: WeedReport;
  row: WeedRow;
  shorts: readonly string[];
}) {
  const { language, texts } = speech;
  const isState = place.kind === 'state';
  const view = { species, group: groups[0]!.group, window, by: 'district' as const, place: place.key };
  return (
    // biome-ignore lint/a11y/noRedundantRoles: styles make a block of it on a phone, which takes its role away
    <tr className={isState ? 'whole' : undefined} role="row">
      {/* biome-ignore lint/a11y/noRedundantRoles: as above */}
      <th scope="row" role="rowheader">
        <a href={viewHref(language, view)}>{place.name}</a>
        {isState ? <small>{texts.weed.districts.whole}</small> : null}
      </th>
      {numbers.map((one, i) => (
        // biome-ignore lint/a11y/noRedundantRoles: as above
        <td role="cell" key={shorts[i]}>
          <span className="cell-group" aria-hidden="true">
            {shorts[i]}
          </span>
          <WeedCell speech={speech} numbers={one} />
        </td>
      ))}
    </tr>
  );
}
