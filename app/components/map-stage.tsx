'use client';

import { useEffect, useMemo, useRef, useState } from 'react';
import type { Camera } from '@/lib/figures/projection';
import type { Anchor } from '@/lib/figures/region-outlines';
import { countiesOf } from '@/lib/geography/areas';
import type { DrawnFront, LiveMap } from '../live-map/create-live-map';
import { drawnPlaces, placeUnder, placeWith } from '../live-map/picture';
import { createTold } from '../live-map/told-place';
import { whenWanted } from '../live-map/when-wanted';
import type { Language } from '../messages/languages';
import type { MapFrame } from '../view/map-frames';
import { type Grain, type View, viewHref } from '../view/view';
import { MapControls } from './map-controls';
import { MapReading } from './map-reading';
import type { MapTexts } from './map-texts';
import { SeasonSlider } from './season-slider';
import { useVisit } from './wait-room';

export interface MapStageProperties {
  /** The server's picture: what is seen first, printed, and kept where a live map cannot be. */
  picture: string;
  /** Units across the picture, and where a live map stands to cover it at one CSS pixel a unit. */
  width: number;
  camera: Camera;
  /** The same of the whole region. */
  regionCamera: Camera;
  /** Names of states, and where they stand. */
  anchors: readonly Anchor[];
  /** What is written over the map where the data are simulated. */
  stamp: string | null;
  /** Where the outlines come from, and which release this is. */
  source: string;
  language: Language;
  texts: MapTexts;
  /** Address of the outlines, and of those of areas where there are any. */
  outlines: string;
  areas: string | null;
  /** `20063 KS-NW KS` for each county in the order of the region: it, its district (or `-`) and its state. */
  counties: readonly string[];
  /** The grain that is drawn. */
  grain: Grain;
  front: DrawnFront | null;
  frames: readonly MapFrame[];
  view: View;
  /** Key of the place to outline, and its middle where it is small enough to be looked for. */
  chosen: string;
  middle: { lon: number; lat: number } | null;
}

/**
 * The map. The server's picture stands until the live map has drawn the same thing over it; all that the live map
 * shows it takes from that picture, so the two cannot differ, but for the other seasons that it can be stepped through.
 */
export function MapStage(properties: MapStageProperties) {
  const { picture, stamp, source, areas, grain, front, frames, view, chosen, middle, language, texts } =
    properties;
  const stage = useRef<HTMLDivElement>(null);
  const visit = useVisit();
  const { live, isComing, container } = useLiveMap(stage, properties);
  const [told] = useState(createTold);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the picture is what is read from the stage
  useEffect(() => {
    live?.paint({ fills: drawnPlaces(stage.current!), grain, areas });
    live?.drawFront(front);
    told.tell({ read: null });
  }, [live, picture, grain, areas]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a place is gone to when it is chosen
  useEffect(() => {
    live?.choose(chosen);
    if (middle) live?.show(middle);
  }, [live, chosen]);

  useEffect(
    () =>
      live?.listen({
        point: (place) => told.tell({ read: place ? placeWith(stage.current!, place) : null }),
        open: (place) => visit(hrefOf(language, view, place)),
        close: () => {
          if (view.place !== 'region') visit(viewHref(language, { ...view, place: 'region' }));
        },
      }),
    [live, told, view, language, visit],
  );

  return (
    <>
      <div
        className="map-frame"
        onPointerOver={(event) => live || told.tell({ read: placeUnder(event.target) })}
        onPointerMove={({ clientX, currentTarget }) => {
          const { left, width } = currentTarget.getBoundingClientRect();
          told.tell({ side: clientX < left + width / 2 ? 'right' : 'left' });
        }}
      >
        <div ref={stage} className="map-stage" data-map={live ? 'live' : 'picture'}>
          {/* biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures, text escaped there */}
          <div className="map-picture" dangerouslySetInnerHTML={{ __html: picture }} />
          <div ref={container} className="map-live" />
          <div className="map-cross" aria-hidden="true" />
          {stamp && live ? (
            <p className="map-stamp" aria-hidden="true">
              {stamp}
            </p>
          ) : null}
        </div>
        <MapReading texts={texts} told={told} hrefOf={(place) => hrefOf(language, view, place)} />
      </div>
      <div className="map-below">
        <div className="map-controls-room">
          {live ? <MapControls texts={texts} map={live} /> : null}
          <p className="quiet" role="status">
            {isComing ? texts.coming : ''}
          </p>
        </div>
        <SeasonSlider
          texts={texts}
          frames={frames}
          shown={view}
          step={live ? (frame) => live.step(frame) : null}
          open={(window) => visit(viewHref(language, { ...view, window }), { replaces: true })}
        />
      </div>
      <p className="quiet">
        {texts.hint} {source}
      </p>
    </>
  );
}

/** The live map once it has taken over; until then, and where there can be none, null. `isComing` while it is made. */
function useLiveMap(stage: React.RefObject<HTMLDivElement | null>, properties: MapStageProperties) {
  const { outlines, camera, width } = properties;
  const { lon, lat, zoom } = camera;
  const container = useRef<HTMLDivElement>(null);
  const [live, setLive] = useState<LiveMap | null>(null);
  const [isComing, setComing] = useState(false);
  const given = useRef(properties);
  given.current = properties;
  const home = useMemo(() => ({ lon, lat, zoom }), [lon, lat, zoom]);

  useEffect(() => {
    let map: LiveMap | null = null;
    let gone = false;
    const cancel = whenWanted(stage.current!, async () => {
      performance.mark('live-map-wanted');
      setComing(true);
      const code = await import('../live-map/create-live-map').catch(() => null);
      if (gone) return;
      // Without signal the picture stays.
      if (!code) return setComing(false);
      const { regionCamera, counties, anchors, texts, grain, areas, chosen } = given.current;
      map = await code.createLiveMap({
        ...{ container: container.current!, width, camera: given.current.camera, region: regionCamera },
        ...{ outlines, names: anchors, texts, chosen },
        drawn: { fills: drawnPlaces(stage.current!), grain, areas },
        counties: counties.map((keys) => {
          const [fips = '', district = '', state = ''] = keys.split(' ');
          return { fips, district, state };
        }),
      });
      if (gone) {
        map?.remove();
        return;
      }
      if (map) setLive(map);
      setComing(false);
      performance.mark('live-map-there');
    });
    return () => {
      gone = true;
      setComing(false);
      cancel();
      map?.remove();
      setLive(null);
    };
  }, [stage, width, outlines]);

  useEffect(() => live?.goTo(home), [live, home]);
  return { live, isComing, container };
}

/** An area is opened by the first of its counties. */
function hrefOf(language: Language, view: View, place: string): string {
  return viewHref(language, { ...view, place: countiesOf(place)[0]! });
}
