import { type GeoJSONSource, Map as MapLibre, Marker, setWorkerUrl } from 'maplibre-gl';
import 'maplibre-gl/dist/maplibre-gl.css';
import type { Camera } from '@/lib/figures/projection';
import type { Anchor } from '@/lib/figures/region-outlines';
import { countiesOf, isAreaKey } from '@/lib/geography/areas';
import type { MapTexts } from '../components/map-texts';
import type { Grain } from '../view/view';
import {
  AREAS,
  COUNTY_OPACITY,
  codeOf,
  FILL,
  fillColour,
  layers,
  NOWHERE,
  outlineOf,
  SOURCE,
} from './layers';
import { type Palette, readPalette } from './palette';
import type { DrawnLook } from './picture';
import { dotTile, hatchTile, tileRatio } from './tiles';

export interface LiveMap {
  /** Shows these looks and outlines the chosen place, in the next frame; `areas` is the address of their outlines. */
  paint(drawn: { places: readonly DrawnLook[]; grain: Grain; chosen: string; areas: string | null }): void;
  /** Told the place that is pointed at or under the cross, and the place that is to be opened. Returns the end of it. */
  listen(listener: { point: (place: string | null) => void; open: (place: string) => void }): () => void;
  /** Steps in (1) or out (−1). */
  zoom(steps: number): void;
  /** Moves by a third of the map. */
  pan(x: number, y: number): void;
  whole(): void;
  remove(): void;
}

setWorkerUrl(new URL('maplibre-gl/dist/maplibre-gl-worker.mjs', import.meta.url).toString());

/**
 * A live map over the picture, at the same projection and place. Resolves when it has drawn everything; null where
 * the browser cannot draw one, and then the picture stays.
 *
 * @param width units across the picture, and `camera` where it stands at one CSS pixel a unit
 * @param outlines address of the outlines as GeoJSON
 */
export async function createLiveMap(options: {
  container: HTMLElement;
  width: number;
  camera: Camera;
  outlines: string;
  names: readonly Anchor[];
  texts: Pick<MapTexts, 'label' | 'gestures'>;
}): Promise<LiveMap | null> {
  const { container, width, camera, outlines, names, texts } = options;
  const scale = () => container.clientWidth / width;
  const home = () => ({
    center: [camera.lon, camera.lat] as [number, number],
    zoom: camera.zoom + Math.log2(scale()),
  });
  const palette = readPalette(container);
  let map: MapLibre;
  try {
    map = new MapLibre({
      container,
      ...home(),
      maxZoom: 9,
      minZoom: camera.zoom - 2,
      style: {
        version: 8,
        sources: {
          [SOURCE]: { type: 'geojson', data: outlines, promoteId: 'place', tolerance: 0.2 },
          [AREAS]: { type: 'geojson', data: EMPTY, tolerance: 0.2 },
        },
        layers: [],
      },
      attributionControl: false,
      cooperativeGestures: true,
      dragRotate: false,
      pitchWithRotate: false,
      touchPitch: false,
      renderWorldCopies: false,
      fadeDuration: 0,
      locale: { 'Map.Title': texts.label, ...texts.gestures },
    });
  } catch (error) {
    console.info('No live map here, the picture stays:', error);
    container.replaceChildren();
    return null;
  }
  map.touchZoomRotate.disableRotation();
  map.keyboard.disableRotation();
  try {
    await once(map, 'load');
    addImages(map, palette, scale());
    for (const layer of layers(palette, scale())) map.addLayer(layer);
    for (const name of names) addName(map, name);
    await once(map, 'idle');
  } catch (error) {
    console.info('The live map could not be drawn, the picture stays:', error);
    map.remove();
    return null;
  }
  return liveMap(map, home, scale);
}

function liveMap(
  map: MapLibre,
  home: () => { center: [number, number]; zoom: number },
  scale: () => number,
): LiveMap {
  const districtOf = new Map<string, string>();
  /** The area of each joined county. */
  const areaOf = new Map<string, string>();
  let shownAreas: string | null = null;
  let grain: Grain = 'county';
  let moved = false;
  const ending = new AbortController();
  const container = map.getContainer();

  map.on('movestart', ({ originalEvent }) => {
    if (originalEvent) moved = true;
  });
  map.on('resize', () => {
    restyle(map, scale());
    if (!moved) map.jumpTo(home());
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => restyle(map, scale()), {
    signal: ending.signal,
  });

  const placeAt = (point: { x: number; y: number }): string | null => {
    const [found] = map.queryRenderedFeatures([point.x, point.y], { layers: [FILL] });
    const place = found?.properties[grain === 'county' ? 'place' : 'district'] as string | undefined;
    return place === undefined ? null : (areaOf.get(place) ?? place);
  };

  return {
    paint({ places, grain: by, chosen, areas }) {
      grain = by;
      if (areas !== shownAreas) map.getSource<GeoJSONSource>(AREAS)?.setData(areas ?? EMPTY);
      shownAreas = areas;
      if (by === 'district' && districtOf.size === 0) {
        for (const { properties } of map.querySourceFeatures(SOURCE, { filter: ['has', 'district'] })) {
          districtOf.set(properties.place as string, properties.district as string);
        }
      }
      const codes = new Map(places.map((place) => [place.place, codeOf(place)]));
      areaOf.clear();
      for (const area of [...codes.keys()].filter(isAreaKey))
        for (const county of countiesOf(area)) areaOf.set(county, area);
      const counties =
        by === 'county'
          ? [...codes.keys()].flatMap((place) => countiesOf(place).map((county) => [county, place] as const))
          : [...districtOf];
      for (const [county, place] of counties) {
        const state = { look: codes.get(place) ?? 0, joined: areaOf.has(county) };
        map.setFeatureState({ source: SOURCE, id: county }, state);
      }
      map.setPaintProperty('line-county', 'line-opacity', by === 'county' ? COUNTY_OPACITY : 0.5);
      for (const id of ['line-chosen-halo', 'line-chosen']) outline(map, id, chosen);
    },
    listen({ point, open }) {
      const show = (place: string | null) => {
        outline(map, 'line-pointed', place);
        point(place);
      };
      let last: string | null = null;
      const change = (place: string | null) => {
        if (place !== last) show(place);
        last = place;
      };
      const follow = (event: { point: { x: number; y: number } }) => change(placeAt(event.point));
      const underCross = () => {
        if (map.getCanvas().matches(':focus-visible')) change(placeAt(map.project(map.getCenter())));
      };
      const enter = (event: KeyboardEvent) => {
        if (event.key === 'Enter' && last) open(last);
      };
      const tap = (event: { point: { x: number; y: number }; originalEvent: MouseEvent }) => {
        const place = placeAt(event.point);
        const byMouse = (event.originalEvent as PointerEvent).pointerType === 'mouse';
        if (place && byMouse && place === last) open(place);
        else change(place);
      };
      map.on('mousemove', follow);
      map.on('click', tap);
      map.on('moveend', underCross);
      map.getCanvas().addEventListener('focus', underCross);
      map.getCanvas().addEventListener('keydown', enter);
      return () => {
        map.off('mousemove', follow);
        map.off('click', tap);
        map.off('moveend', underCross);
        map.getCanvas().removeEventListener('focus', underCross);
        map.getCanvas().removeEventListener('keydown', enter);
      };
    },
    zoom(steps) {
      moved = true;
      map.zoomTo(map.getZoom() + steps);
    },
    pan(x, y) {
      moved = true;
      map.panBy([(x * container.clientWidth) / 3, (y * container.clientHeight) / 3]);
    },
    whole() {
      moved = false;
      map.easeTo(home());
    },
    remove() {
      ending.abort();
      map.remove();
    },
  };
}

const EMPTY = { type: 'FeatureCollection' as const, features: [] };

/** Outlines a place of any kind with a layer and its counterpart for areas. */
function outline(map: MapLibre, layer: string, place: string | null): void {
  const filter = place ? outlineOf(place) : NOWHERE;
  for (const id of [layer, `${layer}-area`]) map.setFilter(id, filter);
}

/** Takes over the colours that the page has now and the width that the map has now. */
function restyle(map: MapLibre, scale: number): void {
  const palette = readPalette(map.getContainer());
  map.setPaintProperty(FILL, 'fill-color', fillColour(palette));
  for (const layer of layers(palette, scale)) {
    if (layer.type !== 'line') continue;
    map.setPaintProperty(layer.id, 'line-color', layer.paint?.['line-color']);
    map.setPaintProperty(layer.id, 'line-width', layer.paint?.['line-width']);
  }
  map.updateImage('dots', dotTile(palette.dot));
  map.updateImage('hatch', hatchTile(palette.hatch));
}

function addImages(map: MapLibre, palette: Palette, scale: number): void {
  const options = { pixelRatio: tileRatio(scale) };
  map.addImage('dots', dotTile(palette.dot), options);
  map.addImage('hatch', hatchTile(palette.hatch), options);
}

function addName(map: MapLibre, { name, lon, lat }: Anchor): void {
  const element = Object.assign(document.createElement('span'), {
    className: 'state-name',
    textContent: name,
  });
  element.setAttribute('aria-hidden', 'true');
  new Marker({ element }).setLngLat([lon, lat]).addTo(map);
}

/** The next event of this kind, or the error that comes before it. */
function once(map: MapLibre, type: 'load' | 'idle'): Promise<void> {
  return new Promise((resolve, reject) => {
    map.once(type, () => resolve());
    map.once('error', ({ error }) => reject(error));
  });
}
