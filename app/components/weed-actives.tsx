import { periodLabel } from '@/lib/vocabulary/terms';
import { unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { WeedReport } from '../view/weed-report';
import { StripTable } from './strip-table';

/** Groups of which several actives were tested, active by active: one need not speak for another. */
export function WeedActives({ speech, report }: { speech: Speech; report: WeedReport }) {
  const { actives: words } = speech.texts.weed;
  const { actives, window } = report;
  if (actives.length === 0) return null;
  const period = unbroken(periodLabel(window));
  return (
    <section aria-labelledby="actives-heading">
      <h2 id="actives-heading">{words.heading(period)}</h2>
      <p className="reading">{words.reading}</p>
      {actives.map(({ group, actives: all, rows }) => (
        <details key={group} className="by-active">
          <summary>
            {words.summary(
              group,
              all.filter((active) => active !== null),
            )}
          </summary>
          <StripTable
            speech={speech}
            caption={words.caption(group, period)}
            columns={all.map((active) => active ?? words.notNamed)}
            rows={rows.map(({ place, numbers }) => ({ key: place.key, name: place.name, numbers }))}
          />
        </details>
      ))}
    </section>
  );
}
