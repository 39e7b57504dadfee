import { count, interval, percent } from '@/app/messages/en/format';
import { mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight } from '@/lib/figures/projection';
import { fillSwatch } from '@/lib/figures/swatch';
import { countyName } from '@/lib/geography/atlas';
import type { Region } from '@/lib/geography/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { periodLabel } from '@/lib/vocabulary/terms';
import { DataTable } from '../components/data-table';
import { Drawing } from '../components/drawing';
import { stampOf } from '../components/stamp';
import { mapTexts as texts } from '../messages/map';
import { pairWords } from '../messages/pairs';
import { ClickableMap } from './clickable-map';
import { legendOf, lookOfPlace } from './layer-fills';
import { keptApart, type Layer, type MapView, mapHref } from './map-view';
import { PlaceFindings } from './place-findings';
import { PlaceTrend } from './place-trend';
import type { PrivateMap } from './read-private-map';
import { TakenApart } from './taken-apart';

const WIDTH = 900;
/** Layers that the last analysis made. */
const WHOLE: readonly Layer[] = ['cluster', 'next'];

/** The map with exact counts, its table, and the chosen place season by season and taken apart. */
export function PrivateMapPage(props: {
  map: PrivateMap;
  region: Region;
  /** Seasons that are not closed. */
  open: readonly number[];
  simulated: boolean;
}) {
  const { map, region, open, simulated } = props;
  const { view, cells } = map;
  const places = placesIn(region, view);
  const all = [...cells.values()];
  const sum = (name: 'tested' | 'resistant') => all.reduce((total, cell) => total + cell[name], 0);
  const screened = all.filter(({ tested }) => tested > 0);
  const title = texts.headline(pairWords(view.pair), periodLabel(view.period), keptApart(view));
  const told = texts.told(sum('tested'), sum('resistant'), screened.length, texts.places[view.by]);
  const picture = mapFigure({
    ...{ region, grain: view.by, title, prefix: 'private-', hiddenWords: '' },
    description: `${texts.layers[view.layer]}. ${told} ${texts.description}`,
    size: { width: WIDTH, height: fittedHeight(region, WIDTH) },
    stamp: stampOf(simulated),
    chosen: view.place === 'region' ? null : view.place,
    places: places.map(({ key, name }) => {
      const cell = cells.get(key);
      const look = lookOfPlace(map, key);
      return {
        ...{ place: key, name, share: null, words: look.words, fill: look.fill },
        status: cell?.resistant ? 'confirmed' : cell?.tested ? 'none confirmed' : 'not screened',
      };
    }),
  });
  const isSilent = view.layer === 'cluster' && map.clustering === null;
  return (
    <>
      <h2>{title}</h2>
      <p className="staff-headline">{told}</p>
      {WHOLE.includes(view.layer) && (view.crop || view.funder) ? <p>{texts.analysisWhole}</p> : null}
      {isSilent ? <p>{texts.noAnalysis}</p> : null}
      {map.clustering ? <p>{map.clustering.sentence}</p> : null}
      {view.layer === 'next' && map.spread?.lookNext ? <p>{map.spread.lookNext.sentence}</p> : null}
      <ClickableMap markup={picture} href={mapHref(view)} />
      <ul className="staff-legend">
        {legendOf(map).map(({ fill, words }, at) => (
          <li key={words}>
            <Drawing markup={fillSwatch(fill, `legend-${at}-`)} className="staff-swatch" />
            {words}
          </li>
        ))}
      </ul>
      <details>
        <summary>{texts.table}</summary>
        <DataTable
          caption={title}
          columns={texts.tableColumns}
          rows={places.flatMap(({ key, name }) => {
            const cell = cells.get(key);
            if (!cell) return [];
            return [{ key, cells: [name, ...countCells(cell), cell.operations] }];
          })}
        />
      </details>
      <PlaceTrend map={map} region={region} open={open} simulated={simulated} />
      <TakenApart map={map} />
      <PlaceFindings map={map} />
    </>
  );
}

function countCells(cell: { tested: number; resistant: number; someSurvivors: number }) {
  const { tested, resistant, someSurvivors } = cell;
  return [
    count(tested),
    count(resistant),
    count(someSurvivors),
    tested === 0 ? '–' : percent(resistant / tested),
    tested === 0 ? '–' : interval(wilsonInterval(resistant, tested)),
  ];
}

function placesIn(region: Region, { by }: Pick<MapView, 'by'>): { key: string; name: string }[] {
  if (by === 'state') return region.states.map(({ code, name }) => ({ key: code, name }));
  if (by === 'district') return region.districts.map(({ code, name }) => ({ key: code, name }));
  return region.counties.map(({ fips }) => ({ key: fips, name: countyName(fips) ?? fips }));
}
