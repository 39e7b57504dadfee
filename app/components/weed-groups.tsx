import { type PlaceStatus, periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import { trendsPath } from '../view/trends-view';
import { viewHref } from '../view/view';
import type { WeedGroup, WeedReport } from '../view/weed-report';
import { Strip } from './weed-cell';

/** Each group in the whole region: found first, by share; then none found; then what is not public. */
export function WeedGroups({ speech, report }: { speech: Speech; report: WeedReport }) {
  const { language, texts, at } = speech;
  const { species, window, groups, region } = report;
  const parts = region.districts.length > 0 ? 'district' : 'state';
  return (
    <section aria-labelledby="groups-heading">
      <h2 id="groups-heading">{texts.weed.groups.heading(unbroken(periodLabel(window)))}</h2>
      <ul className="group-list">
        {[...groups].sort(byShare).map((one) => {
          const { short, action } = texts.herbicideName(one.group);
          return (
            <li key={one.group}>
              <h3>
                {sentenceStart(short)}
                {action ? <small>{action}</small> : null}
              </h3>
              <div className="group-words">
                <Strip numbers={one.numbers} />
                <p>{texts.weed.groupWords(one)}</p>
                <p className="quiet">
                  {texts.weed.looksWords(one, parts)}{' '}
                  {one.actives.length > 0 ? texts.weed.groups.tested(one.actives) : null}{' '}
                  <a
                    href={viewHref(language, {
                      species,
                      group: one.group,
                      window,
                      by: 'county',
                      place: 'region',
                      release: heldRelease(report),
                    })}
                  >
                    {texts.weed.findings.map(one.group)}
                  </a>{' '}
                  ·{' '}
                  <a href={at(trendsPath({ species, group: one.group }, { release: heldRelease(report) }))}>
                    {texts.weed.groups.trend}
                  </a>
                </p>
              </div>
            </li>
          );
        })}
      </ul>
      <p className="reading">{texts.weed.groups.active}</p>
    </section>
  );
}

const ORDER: readonly PlaceStatus[] = [
  'confirmed',
  'none confirmed',
  'no public information',
  'not screened',
];

/** Only public numbers decide the order. */
function byShare(a: WeedGroup, b: WeedGroup): number {
  const [one, other] = [a, b].map(({ numbers: { status } }) => ORDER.indexOf(status));
  if (one !== other) return one! - other!;
  const [share, its] = [a, b].map(({ numbers: { estimate } }) => estimate?.share ?? 0);
  return its! - share! || a.group - b.group;
}
