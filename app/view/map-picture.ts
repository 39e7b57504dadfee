import { frontGeoJson, frontRings, ringLabelPoint } from '@/lib/figures/front';
import { isInside, type MapFigure, mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight, regionProjection, type Size } from '@/lib/figures/projection';
import type { DrawnFront } from '../live-map/create-live-map';
import { sentence } from '../messages/format';
import type { Texts } from '../messages/texts';
import type { Report } from './read-report';

const WIDTH = 960;

/** The picture of a report's map with its words. */
export interface MapPicture {
  svg: string;
  size: Size;
  title: string;
  /** What it shows, in a sentence. */
  about: string;
}

/** Draws the map of a report; a chosen district or state fills it. */
export function mapPicture(texts: Texts, report: Report, over: Partial<MapFigure> = {}): MapPicture {
  const { head, region, view, map, chosen, place } = report;
  const size = {
    width: WIDTH,
    height: fittedHeight(region, WIDTH),
    focus: place.kind === 'district' || place.kind === 'state' ? place.key : null,
  };
  const title = texts.layers.title(
    map,
    view.layer,
    texts.weedName(view.species),
    texts.herbicideName(view.group).short,
  );
  const about = texts.layers.about(map, view.layer);
  const outlined = outlinedPlace(report);
  const svg = mapFigure({
    ...{ region, size, title },
    grain: map.grain,
    places: map.places.map((one) => ({
      place: one.numbers.place.key,
      name: one.numbers.place.fullName,
      status: one.numbers.status,
      share: one.numbers.estimate?.share ?? null,
      fill: one.fill,
      words: texts.layers.placeWords(one, view.layer),
    })),
    description: about,
    hiddenWords: sentence(texts.status['no public information']),
    stamp: head.simulated ? texts.simulated : null,
    chosen: outlined === 'region' || chosen.length === 1 ? null : outlined,
    front: map.front,
    prefix: 'map-',
    ...over,
  });
  return { svg, size, title, about };
}

/** Key of the place that the map outlines: the chosen one, or the area that it is counted in on this map. */
export function outlinedPlace({ map, place }: Pick<Report, 'map' | 'place'>): string {
  if (place.kind !== 'county' || map.grain !== 'county') return place.key;
  return map.areas?.areas.find((area) => area.includes(place.key))?.join('+') ?? place.key;
}

/** The front of a report's map for a live map, its names where the picture has them. */
export function drawnFront({ region, map }: Report, size: Size): DrawnFront | null {
  if (!map.front) return null;
  const projection = regionProjection(region, size);
  const names = frontRings(map.front).flatMap((ring) => {
    const point = ringLabelPoint(ring, (one) => isInside(projection(one)!, size));
    return point ? [{ name: ring.label, lon: point[0], lat: point[1] }] : [];
  });
  return { rings: frontGeoJson(map.front), names, origins: map.front.origins };
}
