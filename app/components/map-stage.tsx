'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useRef, useState } from 'react';
import type { Camera } from '@/lib/figures/projection';
import type { Anchor } from '@/lib/figures/region-outlines';
import { countiesOf } from '@/lib/geography/areas';
import type { LiveMap } from '../live-map/create-live-map';
import { drawnPlaces, placeUnder, placeWith } from '../live-map/picture';
import { whenWanted } from '../live-map/when-wanted';
import type { Language } from '../messages/languages';
import { type View, viewHref } from '../view/view';
import { MapControls } from './map-controls';
import { MapReading, type ReadPlace } from './map-reading';
import type { MapTexts } from './map-texts';

export interface MapStageProperties {
  /** The server's picture: what is seen first, printed, and kept where a live map cannot be. */
  picture: string;
  /** Units across the picture, and where a live map stands to cover it at one CSS pixel a unit. */
  width: number;
  camera: Camera;
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
  view: View;
  /** Key of the place to outline. */
  chosen: string;
}

/**
 * The map. The server's picture stands until the live map has drawn the same thing over it; all that the live map
 * shows it takes from that picture, so the two cannot differ.
 */
export function MapStage(properties: MapStageProperties) {
  const { picture, width, camera, anchors, stamp, source, outlines, areas, view, chosen, language, texts } =
    properties;
  const router = useRouter();
  const { lon, lat, zoom } = camera;
  const stage = useRef<HTMLDivElement>(null);
  const container = useRef<HTMLDivElement>(null);
  const names = useRef(anchors);
  const words = useRef(texts);
  const [live, setLive] = useState<LiveMap | null>(null);
  const [read, setRead] = useState<ReadPlace | null>(null);

  useEffect(() => {
    const [element, box] = [stage.current!, container.current!];
    let map: LiveMap | null = null;
    let gone = false;
    const cancel = whenWanted(element, async () => {
      const { createLiveMap } = await import('../live-map/create-live-map');
      if (gone) return;
      map = await createLiveMap({
        container: box,
        width,
        camera: { lon, lat, zoom },
        outlines,
        names: names.current,
        texts: words.current,
      });
      if (gone) map?.remove();
      else if (map) setLive(map);
    });
    return () => {
      gone = true;
      cancel();
      map?.remove();
    };
  }, [width, lon, lat, zoom, outlines]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the picture is what is read from the stage
  useEffect(() => {
    live?.paint({ places: drawnPlaces(stage.current!), grain: view.by, chosen, areas });
    setRead(null);
  }, [live, picture, view.by, chosen, areas]);

  useEffect(
    () =>
      live?.listen({
        point: (place) => setRead(place ? placeWith(stage.current!, place) : null),
        open: (place) => router.push(hrefOf(language, view, place), { scroll: false }),
      }),
    [live, router, view, language],
  );

  return (
    <>
      <div
        ref={stage}
        className="map-stage"
        data-map={live ? 'live' : 'picture'}
        onPointerOver={(event) => live || setRead(placeUnder(event.target))}
      >
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
      <div className="map-below">
        <div className="map-controls-room">{live ? <MapControls texts={texts} map={live} /> : null}</div>
        <p className="quiet">{source}</p>
      </div>
      <MapReading texts={texts} read={read} href={read && hrefOf(language, view, read.place)} />
    </>
  );
}

/** An area is opened by the first of its counties. */
function hrefOf(language: Language, view: View, place: string): string {
  return viewHref(language, { ...view, place: countiesOf(place)[0]! });
}
