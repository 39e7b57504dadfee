import { type GeoJSONSource, Map as MapLibre, Marker, setWorkerUrl } from 'maplibre-gl';
import 'maplibre-gl/dist/maplibre-gl.css';
import { decodeFill } from '@/lib/figures/fill-code';
import { type Fill, plainFill } from '@/lib/figures/looks';
import type { Camera } from '@/lib/figures/projection';
import type { Anchor } from '@/lib/figures/region-outlines';
import { countiesOf, isAreaKey } from '@/lib/geography/areas';
import type { MapTexts } from '../components/map-texts';
import type { MapFrame } from '../view/map-frames';
import type { Grain } from '../view/view';
import {
  AREAS,
  COUNTY_OPACITY,
  codeOf,
  FILL,
  FRONT,
  fillColour,
  layers,
  NOWHERE,
  outlineOf,
  SOURCE,
} from './layers';
import { type Palette, readPalette } from './palette';
import type { Fills } from './picture';
import { dotTile, faintTile, hatchTile, tileRatio } from './tiles';

/** The places that hold a county, by grain. */
export interface CountyKeys {
  fips: string;
  district: string;
  state: string;
}

export interface LiveMap {
  /** Shows these fills and outlines the chosen place, in the next frame; `areas` is the address of their outlines. */
  paint(drawn: { fills: Fills; grain: Grain; areas: string | null }): void;
  /** Shows one frame of a map that is stepped through. */
  step(frame: MapFrame): void;
  choose(place: string | null): void;
  /** Shows a front, with its names; null for none. */
  drawFront(front: DrawnFront | null): void;
  /** Told the place that is pointed at or under the cross, and the place that is to be opened. Returns the end of it. */
  listen(listener: { point: (place: string | null) => void; open: (place: string) => void }): () => void;
  /** Steps in (1) or out (−1). */
  zoom(steps: number): void;
  /** Moves by a third of the map. */
  pan(x: number, y: number): void;
  /** Goes to a camera, which is home from then on. */
  goTo(camera: Camera): void;
  /** Goes where a point can be seen, if it cannot. */
  show(point: { lon: number; lat: number }): void;
  whole(): void;
  remove(): void;
}

/** A front as a live map draws it. */
export interface DrawnFront {
  rings: GeoJSON.FeatureCollection;
  names: readonly Anchor[];
  origins: readonly { lon: number; lat: number }[];
}

setWorkerUrl(new URL('maplibre-gl/dist/maplibre-gl-worker.mjs', import.meta.url).toString());

export interface LiveMapOptions {
  container: HTMLElement;
  /** Units across the picture. */
  width: number;
  /** Where the picture stands at one CSS pixel a unit, and where one of the whole region would. */
  camera: Camera;
  region: Camera;
  /** Address of the outlines as GeoJSON. */
  outlines: string;
  /** For each county its FIPS code, district and state, in the order of the region. */
  counties: readonly CountyKeys[];
  names: readonly Anchor[];
  texts: MapTexts;
}

/**
 * A live map over the picture, at the same projection and place. Resolves when it has drawn everything; null where
 * the browser cannot draw one, and then the picture stays.
 */
export async function createLiveMap(options: LiveMapOptions): Promise<LiveMap | null> {
  const { container, width, camera, region, outlines, names, texts } = options;
  const scale = () => container.clientWidth / width;
  const standing = ({ lon, lat, zoom }: Camera) => ({
    center: [lon, lat] as [number, number],
    zoom: zoom + Math.log2(scale()),
  });
  const palette = readPalette(container);
  let map: MapLibre;
  try {
    map = new MapLibre({
      container,
      ...standing(camera),
      maxZoom: 9,
      minZoom: region.zoom - 2,
      style: {
        version: 8,
        sources: {
          [SOURCE]: { type: 'geojson', data: outlines, promoteId: 'place', tolerance: 0.2 },
          [AREAS]: { type: 'geojson', data: EMPTY, tolerance: 0.2 },
          [FRONT]: { type: 'geojson', data: EMPTY, tolerance: 0.2 },
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
    for (const name of names) addName(map, name, 'state-name');
    await once(map, 'idle');
  } catch (error) {
    console.info('The live map could not be drawn, the picture stays:', error);
    map.remove();
    return null;
  }
  return liveMap(map, options, standing, scale);
}

function liveMap(
  map: MapLibre,
  { counties, camera, region }: LiveMapOptions,
  standing: (camera: Camera) => { center: [number, number]; zoom: number },
  scale: () => number,
): LiveMap {
  const grainKeys = new Map(counties.map((keys) => [keys.fips, keys]));
  /** The area of each joined county. */
  let areaOf = new Map<string, string>();
  /** What feature state holds of each county. */
  const shown = new Map<string, string>();
  let shownAreas: string | null = null;
  let grain: Grain = 'county';
  let home = camera;
  let moved = false;
  let front: Marker[] = [];
  const ending = new AbortController();
  const container = map.getContainer();

  map.on('movestart', ({ originalEvent }) => {
    if (originalEvent) moved = true;
  });
  map.on('resize', () => {
    restyle(map, scale());
    if (!moved) map.jumpTo(standing(home));
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => restyle(map, scale()), {
    signal: ending.signal,
  });

  const holderOf = (fips: string): string | undefined => {
    if (grain === 'county') return areaOf.get(fips) ?? fips;
    return grainKeys.get(fips)?.[grain];
  };

  const placeAt = (point: { x: number; y: number }): string | null => {
    const [found] = map.queryRenderedFeatures([point.x, point.y], { layers: [FILL] });
    return (found && holderOf(found.properties.place as string)) ?? null;
  };

  /** Only what differs from what is shown costs anything. */
  const fill = (
    by: Grain,
    areas: readonly string[],
    outlines: string | null,
    fillOf: (i: number) => Fill,
  ) => {
    grain = by;
    areaOf = new Map(areas.flatMap((area) => countiesOf(area).map((county) => [county, area] as const)));
    if (outlines !== shownAreas) map.getSource<GeoJSONSource>(AREAS)?.setData(outlines ?? EMPTY);
    shownAreas = outlines;
    counties.forEach(({ fips }, i) => {
      const { tone, faint } = fillOf(i);
      const joined = areaOf.has(fips);
      const state = `${tone}${faint}${joined}`;
      if (shown.get(fips) === state) return;
      shown.set(fips, state);
      map.setFeatureState({ source: SOURCE, id: fips }, { tone: codeOf(tone), faint, joined });
    });
    map.setPaintProperty('line-county', 'line-opacity', by === 'county' ? COUNTY_OPACITY : 0.5);
  };

  return {
    paint({ fills, grain: by, areas }) {
      const joined = [...fills.keys()].filter(isAreaKey);
      const area = new Map(joined.flatMap((key) => countiesOf(key).map((county) => [county, key] as const)));
      const keyOf = ({ fips, district, state }: CountyKeys) =>
        by === 'county' ? (area.get(fips) ?? fips) : by === 'state' ? state : district;
      fill(by, joined, areas, (i) => fills.get(keyOf(counties[i]!)) ?? BLANK);
    },
    step(frame) {
      fill(frame.grain, frame.areas, frame.outlines, (i) => decodeFill(frame.fills[i]!));
    },
    choose(place) {
      for (const id of ['line-chosen-halo', 'line-chosen']) outline(map, id, place);
    },
    drawFront(drawn) {
      map.getSource<GeoJSONSource>(FRONT)?.setData(drawn?.rings ?? EMPTY);
      for (const marker of front) marker.remove();
      front = [
        ...(drawn?.names.map((name) => addName(map, name, 'front-name')) ?? []),
        ...(drawn?.origins.map((at) => addName(map, { ...at, name: '+' }, 'front-origin')) ?? []),
      ];
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
    goTo(next) {
      home = next;
      moved = false;
      map.easeTo(standing(home));
    },
    show({ lon, lat }) {
      if (map.getBounds().contains([lon, lat])) return;
      moved = true;
      map.easeTo({ center: [lon, lat] });
    },
    whole() {
      home = region;
      moved = false;
      map.easeTo(standing(home));
    },
    remove() {
      ending.abort();
      map.remove();
    },
  };
}

const BLANK = plainFill('blank', null);
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
  map.updateImage('faint', faintTile(palette.sheet));
}

function addImages(map: MapLibre, palette: Palette, scale: number): void {
  const options = { pixelRatio: tileRatio(scale) };
  map.addImage('dots', dotTile(palette.dot), options);
  map.addImage('hatch', hatchTile(palette.hatch), options);
  map.addImage('faint', faintTile(palette.sheet), options);
}

function addName(map: MapLibre, { name, lon, lat }: Anchor, className: string): Marker {
  const element = Object.assign(document.createElement('span'), {
    className,
    textContent: name,
  });
  element.setAttribute('aria-hidden', 'true');
  return new Marker({ element }).setLngLat([lon, lat]).addTo(map);
}

/** The next event of this kind, or the error that comes before it. */
function once(map: MapLibre, type: 'load' | 'idle'): Promise<void> {
  return new Promise((resolve, reject) => {
    map.once(type, () => resolve());
    map.once('error', ({ error }) => reject(error));
  });
}
