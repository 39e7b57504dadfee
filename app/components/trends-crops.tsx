import { panelFigure } from '@/lib/figures/panel-figure';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { CropPanel, StateCrops } from '../view/crop-panels';
import type { TrendsReport } from '../view/trends-report';
import { Chart, Reading } from './chart';
import { Fold } from './fold';
import { TrendTable } from './trend-table';

/** A small chart for each crop of a state; crops without a public season are named. */
export function TrendsCrops({ speech, report }: { speech: Speech; report: TrendsReport }) {
  const { texts } = speech;
  const { crops, head } = report;
  const { crops: words } = texts.trends;
  const [one, ...others] = crops;
  if (!one) return null;
  return (
    <section className="trends" aria-labelledby="crops-heading">
      <h2 id="crops-heading">{others.length > 0 ? words.heading : `${words.heading}: ${one.state.name}`}</h2>
      <Reading speech={speech} words={words.reading} />
      {others.length > 0 ? (
        crops.map((of) => (
          <Fold key={of.state.key} name={words.state(of)}>
            <Crops speech={speech} of={of} simulated={head.simulated} />
          </Fold>
        ))
      ) : (
        <Crops speech={speech} of={one} simulated={head.simulated} />
      )}
    </section>
  );
}

function Crops({
  speech,
  of: { state, crops },
  simulated,
}: {
  speech: Speech;
  of: StateCrops;
  simulated: boolean;
}) {
  const { texts } = speech;
  const { crops: words } = texts.trends;
  const hidden = crops.filter((panel) => !hasNumbers(panel));
  return (
    <>
      <div className="panel-grid">
        {crops.filter(hasNumbers).map((panel) => {
          const name = sentenceStart(texts.cropName(panel.crop));
          return (
            <Chart
              key={panel.crop}
              speech={speech}
              small
              name={name}
              note={unbroken(words.newest(panel))}
              markup={markupOf(speech, panel, state.key, simulated)}
            >
              <TrendTable speech={speech} caption={`${name}, ${state.name}`} points={panel.points} />
            </Chart>
          );
        })}
      </div>
      {hidden.length > 0 ? (
        <p className="reading">
          {texts.trends.panels.hidden(hidden.map(({ crop }) => texts.cropName(crop)))}
        </p>
      ) : null}
    </>
  );
}

function hasNumbers({ points }: CropPanel): boolean {
  return points.some(({ withheld, tested }) => !withheld && tested > 0);
}

/** Each season as a window of its own, so that its interval is drawn. */
function markupOf({ texts }: Speech, { crop, points }: CropPanel, state: string, simulated: boolean): string {
  return panelFigure({
    points,
    windows: points.map(({ season, ...point }) => ({ ...point, first: season, last: season })),
    title: sentenceStart(texts.cropName(crop)),
    description: texts.say.trendWords(points),
    words: {
      withheld: texts.withheld,
      point: (point) => `${point.season}: ${texts.say.pointWords(point)}`,
      window: texts.trends.windowWords,
    },
    stamp: simulated ? texts.simulated : null,
    prefix: `crop-${state}-${crop.replaceAll(' ', '-')}-`,
  });
}
