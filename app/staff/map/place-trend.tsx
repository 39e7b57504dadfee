import { count, interval, percent } from '@/app/messages/en/format';
import type { Cell } from '@/lib/cube/types';
import { trendFigure } from '@/lib/figures/trend-figure';
import type { Region } from '@/lib/geography/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { DataTable } from '../components/data-table';
import { Drawing } from '../components/drawing';
import { stampOf } from '../components/stamp';
import { mapTexts as texts } from '../messages/map';
import { countWords } from './layer-fills';
import { liesIn, placeName } from './place-facts';
import { cellsOver, type PrivateMap } from './read-private-map';

/** The chosen place season by season, with exact counts. */
export function PlaceTrend(props: {
  map: PrivateMap;
  region: Region;
  /** Seasons that are not closed. */
  open: readonly number[];
  simulated: boolean;
}) {
  const { map, region, open, simulated } = props;
  const { facts, allFacts, view } = map;
  const isIn = liesIn(region, view.place);
  const seasons = allFacts.map(({ season }) => season);
  const [first, last] = [Math.min(...seasons), Math.max(...seasons)];
  const rows = Array.from({ length: last - first + 1 }, (_, i) => {
    const season = first + i;
    const placeOf = (county: string) => (isIn(county) ? 'region' : null);
    const [cell] = cellsOver(facts, { first: season, last: season }, placeOf, 'region');
    return { season, cell: cell ?? null };
  });
  const name = placeName(region, view.place);
  const picture = trendFigure({
    points: rows.map(({ season, cell }) => ({ ...pointOf(cell), season, unfinished: open.includes(season) })),
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
          rows={rows.map(({ season, cell }) => ({ key: season, cells: [season, ...numbersOf(cell)] }))}
        />
      </div>
    </section>
  );
}

function pointOf(cell: Cell | null) {
  const { tested = 0, resistant = 0 } = cell ?? {};
  const { low, high } = tested > 0 ? wilsonInterval(resistant, tested) : { low: 0, high: 0 };
  return { tested, resistant, low, high, withheld: false };
}

function numbersOf(cell: Cell | null): (string | number)[] {
  if (!cell) return [0, 0, 0, 0, '–', '–'];
  const { received, tested, resistant, someSurvivors } = cell;
  return [
    count(received),
    count(tested),
    count(resistant),
    count(someSurvivors),
    tested === 0 ? '–' : percent(resistant / tested),
    tested === 0 ? '–' : interval(wilsonInterval(resistant, tested)),
  ];
}
