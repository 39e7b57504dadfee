import { panelFigure } from '@/lib/figures/panel-figure';
import { periodLabel } from '@/lib/vocabulary/terms';
import { unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import type { Panel, TrendsReport } from '../view/trends-report';
import { trendsPath } from '../view/trends-view';
import { Chart, Reading } from './chart';
import { Fold } from './fold';
import { TrendTable } from './trend-table';

/** States, and below each a small chart for each of its districts, all on the same axes. */
export function TrendsPanels({ speech, report }: { speech: Speech; report: TrendsReport }) {
  const { texts } = speech;
  const { parts, region, head } = report;
  const { panels: words } = texts.trends;
  const [one, ...others] = parts;
  const window = head.windows.at(-1);
  const states = parts.map(({ state }) => state);
  const hasDistricts = region.districts.length > 0;
  return (
    <section className="trends" aria-labelledby="panels-heading">
      <h2 id="panels-heading">{hasDistricts ? words.heading : words.states}</h2>
      {parts.some(({ state, districts }) => [state, ...districts].some(hasNumbers)) ? (
        <Reading speech={speech} words={words.reading} />
      ) : (
        <p>{words.none}</p>
      )}
      {others.length > 0 || !hasDistricts ? <Panels speech={speech} report={report} panels={states} /> : null}
      {others.length > 0
        ? parts
            .filter(({ districts }) => districts.length > 0)
            .map((part) => (
              <Fold key={part.state.place.key} name={words.state(part, window)}>
                <Panels speech={speech} report={report} panels={part.districts} />
              </Fold>
            ))
        : one && <Panels speech={speech} report={report} panels={one.districts} />}
    </section>
  );
}

/** Charts of places beside each other; those without anything public are named. */
function Panels({
  speech,
  report,
  panels,
}: {
  speech: Speech;
  report: TrendsReport;
  panels: readonly Panel[];
}) {
  const { texts, at } = speech;
  const { pair, head } = report;
  const { panels: words } = texts.trends;
  const hidden = panels.filter((panel) => !hasNumbers(panel) && wasScreened(panel));
  const absent = panels.filter((panel) => !hasNumbers(panel) && !wasScreened(panel));
  const names = (some: readonly Panel[]) => some.map(({ place }) => place.name);
  return (
    <>
      <div className="panel-grid">
        {panels.filter(hasNumbers).map((panel) => (
          <Chart
            key={panel.place.key}
            speech={speech}
            small
            name={panel.place.name}
            href={at(trendsPath(pair, { place: panel.place.key, release: heldRelease(report) }))}
            markup={markupOf(speech, panel, head.simulated)}
          >
            <WindowTable speech={speech} panel={panel} />
          </Chart>
        ))}
      </div>
      {hidden.length > 0 ? <p className="reading">{words.hidden(names(hidden))}</p> : null}
      {absent.length > 0 ? <p className="reading">{words.absent(names(absent))}</p> : null}
    </>
  );
}

function hasNumbers({ points, windows }: Panel): boolean {
  return [...points, ...windows].some(({ withheld, tested }) => !withheld && tested > 0);
}

function wasScreened({ points, windows }: Panel): boolean {
  return [...points, ...windows].some(({ withheld, tested }) => withheld || tested > 0);
}

function markupOf({ texts }: Speech, { place, points, windows }: Panel, simulated: boolean): string {
  return panelFigure({
    points,
    windows,
    title: place.name,
    description: windows.map(texts.trends.windowWords).join(' '),
    words: {
      withheld: texts.withheld,
      point: (point) => `${point.season}: ${texts.say.pointWords(point)}`,
      window: texts.trends.windowWords,
    },
    stamp: simulated ? texts.simulated : null,
    prefix: `panel-${place.key}-`,
  });
}

/** Runs of seasons, and single ones where there are any. */
function WindowTable({ speech, panel: { place, points, windows } }: { speech: Speech; panel: Panel }) {
  const rows = [
    ...windows.map(({ first, last, ...numbers }) => ({
      ...numbers,
      season: unbroken(periodLabel({ first, last })),
      unfinished: false,
    })),
    ...points.filter(({ withheld, tested }) => !withheld && tested > 0),
  ];
  return <TrendTable speech={speech} caption={place.name} points={rows} />;
}
