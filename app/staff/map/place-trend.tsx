import { count, interval, percent } from '@/app/messages/en/format';
import { trendFigure } from '@/lib/figures/trend-figure';
import type { Region } from '@/lib/geography/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { DataTable } from '../components/data-table';
import { Drawing } from '../components/drawing';
import { stampOf } from '../components/stamp';
import { mapTexts as texts } from '../messages/map';
import { countWords } from './layer-fills';
import { placeName } from './place-facts';
import type { PlaceCounts, PrivateMap } from './read-private-map';

/** The chosen place season by season, with exact counts. */
export function PlaceTrend(props: {
  map: PrivateMap;
  region: Region;
  /** Seasons that are not closed. */
  open: readonly number[];
  simulated: boolean;
}) {
  const { map, region, open, simulated } = props;
  const { trend } = map;
  const name = placeName(region, map.view.place);
  const picture = trendFigure({
    points: trend.map((one) => ({
      ...pointOf(one),
      season: one.season,
      unfinished: open.includes(one.season),
    })),
    title: name,
    description: texts.description,
    words: {
      screened: texts.screened,
      withheld: '',
      unfinished: texts.unfinished,
      point: ({ season, tested, resistant }) => texts.point(season, countWords(tested, resistant)),
    },
    stamp: stampOf(simulated),
    prefix: 'private-trend-',
  });
  return (
    <section>
      <h2>
        {texts.trend}: {name}
      </h2>
      <div className="staff-columns">
        <Drawing markup={picture} className="staff-trend" />
        <DataTable
          caption={`${texts.trend}: ${name}`}
          columns={texts.trendColumns}
          rows={trend.map((one) => ({ key: one.season, cells: [one.season, ...numbersOf(one)] }))}
        />
      </div>
    </section>
  );
}

function pointOf({ tested, resistant }: PlaceCounts) {
  const { low, high } = tested > 0 ? wilsonInterval(resistant, tested) : { low: 0, high: 0 };
  return { tested, resistant, low, high, withheld: false };
}

function numbersOf({ received, tested, resistant, someSurvivors }: PlaceCounts): string[] {
  return [
    count(received),
    count(tested),
    count(resistant),
    count(someSurvivors),
    tested === 0 ? '–' : percent(resistant / tested),
    tested === 0 ? '–' : interval(wilsonInterval(resistant, tested)),
  ];
}
