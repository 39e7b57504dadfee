import { type GeoJSONSource, Map as MapLibre, Marker, setWorkerUrl } from 'maplibre-gl';
import '../styles/live-map.css';
import { decodeFill } from '@/lib/figures/fill-code';
import { type Fill, plainFill } from '@/lib/figures/looks';
import type { Camera } from '@/lib/figures/projection';
import type { Anchor } from '@/lib/figures/region-outlines';
import { countiesOf, isAreaKey } from '@/lib/geography/areas';
import type { MapTexts } from '../components/map-texts';
import type { MapFrame } from '../view/map-frames';
import type { Grain } from '../view/view';
import { afterPaint } from './after-paint';
import { handleHand } from './hand';
import {
  AREAS,
  COUNTIES,
  COUNTY_OPACITY,
  codeOf,
  FILL,
  FILLS,
  FRONT,
  fillColour,
  LINES,
  layers,
  TEXTURE_NAMES,
  TEXTURES,
  textureOf,
  textureState,
} from './layers';
import { createOutlines } from './outlines';
import { type Palette, readPalette } from './palette';
import type { Fills } from './picture';
import { createShapes, type Shapes } from './shapes';
import { dotTile, faintTile, hatchTile, tileRatio } from './tiles';

/** The places that hold a county, by grain. */
export interface CountyKeys {
  fips: string;
  district: string;
  state: string;
}

export interface LiveMap {
  /** Shows these fills. */
  paint(drawn: Drawn): void;
  /** Shows one frame of a map that is stepped through, as soon as the page has answered what steps it. */
  step(frame: MapFrame): void;
  choose(place: string | null): void;
  /** Shows a front, with its names; null for none. */
  drawFront(front: DrawnFront | null): void;
  /**
   * Told the place that is pointed at or under the cross, the place that is to be opened, and when the chosen one is to
   * be closed. Returns the end of it.
   */
  listen(listener: {
    point: (place: string | null) => void;
    open: (place: string) => void;
    close: () => void;
  }): () => void;
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

/** What a live map shows of a picture; `areas` is the address of the outlines of areas. */
export interface Drawn {
  fills: Fills;
  grain: Grain;
  areas: string | null;
}

/** A front as a live map draws it. */
export interface DrawnFront {
  rings: GeoJSON.FeatureCollection;
  names: readonly Anchor[];
  origins: readonly { lon: number; lat: number }[];
}

/**
 * How sources are cut into tiles: few and large ones, since the map is drawn anew for each that comes, and little of their
 * neighbours in each, since a county is coloured in every tile that holds some of it. Lines are true to 150 m in them, one
 * pixel at the largest zoom.
 */
const READING = { tolerance: 0.2, maxzoom: 4, buffer: 8 } as const;

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
  /** For each county its FIPS code, district and state, in the order of the outlines, where they come first. */
  counties: readonly CountyKeys[];
  names: readonly Anchor[];
  texts: MapTexts;
  /** What it shows at first, and the place that it outlines. */
  drawn: Drawn;
  chosen: string;
}

/**
 * A live map over the picture, at the same projection and place. Resolves when it has drawn everything; null where
 * the browser cannot draw one, and then the picture stays.
 */
export async function createLiveMap(options: LiveMapOptions): Promise<LiveMap | null> {
  const { container, width, camera, region, outlines, names, texts, drawn, chosen } = options;
  const scale = () => container.clientWidth / width;
  const standing = ({ lon, lat, zoom }: Camera) => ({
    center: [lon, lat] as [number, number],
    zoom: zoom + Math.log2(scale()),
  });
  const palette = readPalette(container);
  // A county's id is its place in the list: the map keeps states in objects, and those with other numbers for keys, as FIPS
  // codes are, take many times as long.
  const geojson = { type: 'geojson', data: outlines, generateId: true, ...READING } as const;
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
          [FILLS]: { ...geojson, filter: COUNTIES },
          [TEXTURES]: { ...geojson, filter: COUNTIES },
          [LINES]: geojson,
          [AREAS]: { type: 'geojson', data: EMPTY, ...READING },
          [FRONT]: { type: 'geojson', data: EMPTY, ...READING },
        },
        layers: layers(palette, scale()),
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
    for (const name of names) addName(map, name, 'state-name');
    await once(map, 'style.load');
    // Before the first tile asks for them: one that does not find them is drawn without.
    for (const name of TEXTURE_NAMES)
      map.addImage(name, tile(name, palette), { pixelRatio: tileRatio(scale()) });
    const live = liveMap(map, options, standing, scale);
    live.paint(drawn);
    live.choose(chosen);
    await once(map, 'idle');
    return live;
  } catch (error) {
    console.info('The live map could not be drawn, the picture stays:', error);
    map.remove();
    return null;
  }
}

function liveMap(
  map: MapLibre,
  { counties, camera, region, outlines }: LiveMapOptions,
  standing: (camera: Camera) => { center: [number, number]; zoom: number },
  scale: () => number,
): LiveMap {
  const grainKeys = new Map(counties.map((keys) => [keys.fips, keys]));
  /** The area of each joined county. */
  let areaOf = new Map<string, string>();
  /** What the map shows of each county: tone, texture (−1: nothing yet) and whether it is joined. */
  const shownTone = new Int8Array(counties.length).fill(-1);
  const shownTexture = new Int8Array(counties.length).fill(-1);
  const shownJoined = new Int8Array(counties.length);
  const shapesAt = createShapes();
  const lines = createOutlines(map, outlines, shapesAt);
  let shapes: Shapes | null = null;
  map.once('idle', () => {
    shapesAt(outlines)
      .then((found) => {
        shapes = found;
      })
      .catch((error) => console.info('Places are read from the map itself:', error));
  });
  const drawTexture = inNextFrame<number>((id, texture) => {
    if (!ending.signal.aborted) map.setFeatureState({ source: TEXTURES, id }, textureState(texture));
  });
  let shownAreas: string | null = null;
  let grain: Grain = 'county';
  let home = camera;
  let moved = false;
  let front: Marker[] = [];
  let isFrontShown = false;
  const ending = new AbortController();
  const container = map.getContainer();
  let tapped: ((point: { x: number; y: number }) => void) | null = null;
  handleHand(map, ending.signal, (point) => {
    tapped?.(point);
    return tapped !== null;
  });

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
    if (shapes) {
      const county = shapes.at(map.unproject([point.x, point.y]).toArray());
      return (county && holderOf(county)) ?? null;
    }
    const [found] = map.queryRenderedFeatures([point.x, point.y], { layers: [FILL] });
    return (found && holderOf(found.properties.place as string)) ?? null;
  };

  const fill = (
    by: Grain,
    areas: readonly string[],
    areaOutlines: string | null,
    fillOf: (i: number) => Fill,
  ) => {
    grain = by;
    areaOf = new Map(areas.flatMap((area) => countiesOf(area).map((county) => [county, area] as const)));
    if (areaOutlines !== shownAreas) map.getSource<GeoJSONSource>(AREAS)?.setData(areaOutlines ?? EMPTY);
    shownAreas = areaOutlines;
    lines.setAreas(areaOutlines);
    for (const [id, { fips }] of counties.entries()) {
      const drawn = fillOf(id);
      const [tone, texture] = [codeOf(drawn.tone), textureOf(drawn)];
      const joined = areaOf.has(fips);
      if (shownTone[id] !== tone) map.setFeatureState({ source: FILLS, id }, { tone });
      if (shownTexture[id] !== texture) drawTexture(id, texture);
      if (shownJoined[id] !== Number(joined)) map.setFeatureState({ source: LINES, id }, { joined });
      [shownTone[id], shownTexture[id], shownJoined[id]] = [tone, texture, Number(joined)];
    }
    map.setPaintProperty('line-county', 'line-opacity', by === 'county' ? COUNTY_OPACITY : 0.5);
  };

  let waiting: MapFrame | null = null;
  return {
    paint({ fills, grain: by, areas }) {
      waiting = null;
      const joined = [...fills.keys()].filter(isAreaKey);
      const area = new Map(joined.flatMap((key) => countiesOf(key).map((county) => [county, key] as const)));
      const keyOf = ({ fips, district, state }: CountyKeys) =>
        by === 'county' ? (area.get(fips) ?? fips) : by === 'state' ? state : district;
      fill(by, joined, areas, (i) => fills.get(keyOf(counties[i]!)) ?? BLANK);
    },
    step(frame) {
      waiting = frame;
      afterPaint(() => {
        if (waiting !== frame) return;
        fill(frame.grain, frame.areas, frame.outlines, (i) => decodeFill(frame.fills[i]!));
      });
    },
    choose(place) {
      lines.show('chosen', place);
    },
    drawFront(drawn) {
      if (!drawn && !isFrontShown) return;
      isFrontShown = drawn !== null;
      map.getSource<GeoJSONSource>(FRONT)?.setData(drawn?.rings ?? EMPTY);
      for (const marker of front) marker.remove();
      front = [
        ...(drawn?.names.map((name) => addName(map, name, 'front-name')) ?? []),
        ...(drawn?.origins.map((at) => addName(map, { ...at, name: '+' }, 'front-origin')) ?? []),
      ];
    },
    listen({ point, open, close }) {
      let last: string | null = null;
      const change = (place: string | null) => {
        if (place === last) return;
        last = place;
        point(place);
        // What is told of it comes first.
        afterPaint(() => {
          if (place === last) lines.show('pointed', place);
        });
      };
      const follow = (event: { point: { x: number; y: number } }) => change(placeAt(event.point));
      const underCross = () => {
        if (map.getCanvas().matches(':focus-visible')) change(placeAt(map.project(map.getCenter())));
      };
      const enter = (event: KeyboardEvent) => {
        if (event.key === 'Enter' && last) open(last);
      };
      // What is told of a place goes first, wherever the focus is; then the choice, from the map alone.
      const leave = ({ key, target }: KeyboardEvent) => {
        if (key !== 'Escape') return;
        if (last) change(null);
        else if (target === map.getCanvas()) close();
      };
      const tap = (event: { point: { x: number; y: number }; originalEvent: MouseEvent }) => {
        const place = placeAt(event.point);
        const byMouse = (event.originalEvent as PointerEvent).pointerType === 'mouse';
        if (place && byMouse && place === last) open(place);
        else change(place);
      };
      tapped = (point) => change(placeAt(point));
      map.on('mousemove', follow);
      map.on('click', tap);
      map.on('moveend', underCross);
      map.getCanvas().addEventListener('focus', underCross);
      map.getCanvas().addEventListener('keydown', enter);
      document.addEventListener('keydown', leave);
      return () => {
        tapped = null;
        // Who listens next does not know what was pointed at.
        last = null;
        lines.show('pointed', null);
        map.off('mousemove', follow);
        map.off('click', tap);
        map.off('moveend', underCross);
        map.getCanvas().removeEventListener('focus', underCross);
        map.getCanvas().removeEventListener('keydown', enter);
        document.removeEventListener('keydown', leave);
      };
    },
    zoom(steps) {
      moved = true;
      afterPaint(() => map.zoomTo(map.getZoom() + steps));
    },
    pan(x, y) {
      moved = true;
      afterPaint(() => map.panBy([(x * container.clientWidth) / 3, (y * container.clientHeight) / 3]));
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
      afterPaint(() => map.easeTo(standing(home)));
    },
    remove() {
      ending.abort();
      map.remove();
    },
  };
}

/** Puts work off by one frame, so that inks and textures of a nation take two short frames and not one long. */
function inNextFrame<T>(work: (id: number, value: T) => void): (id: number, value: T) => void {
  const waiting = new Map<number, T>();
  return (id, value) => {
    if (waiting.size === 0) {
      requestAnimationFrame(() => {
        for (const [one, last] of waiting) work(one, last);
        waiting.clear();
      });
    }
    waiting.set(id, value);
  };
}

const BLANK = plainFill('blank', null);
const EMPTY = { type: 'FeatureCollection' as const, features: [] };

/** Takes over the colours that the page has now and the width that the map has now. */
function restyle(map: MapLibre, scale: number): void {
  const palette = readPalette(map.getContainer());
  map.setPaintProperty(FILL, 'fill-color', fillColour(palette));
  for (const layer of layers(palette, scale)) {
    if (layer.type !== 'line') continue;
    map.setPaintProperty(layer.id, 'line-color', layer.paint?.['line-color']);
    map.setPaintProperty(layer.id, 'line-width', layer.paint?.['line-width']);
  }
  for (const name of TEXTURE_NAMES) map.updateImage(name, tile(name, palette));
}

function tile(name: (typeof TEXTURE_NAMES)[number], { dot, hatch, sheet }: Palette): ImageData {
  if (name === 'dots') return dotTile(dot);
  return name === 'hatch' ? hatchTile(hatch) : faintTile(sheet);
}

function addName(map: MapLibre, { name, lon, lat }: Anchor, className: string): Marker {
  const element = Object.assign(document.createElement('span'), {
    className,
    textContent: name,
  });
  element.setAttribute('aria-hidden', 'true');
  return new Marker({ element }).setLngLat([lon, lat]).addTo(map);
}

/** The next event of this kind; rejects with the error that comes before. */
function once(map: MapLibre, type: 'style.load' | 'idle'): Promise<void> {
  return new Promise((resolve, reject) => {
    map.once(type, () => resolve());
    map.once('error', ({ error }) => reject(error));
  });
}
