'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useRef, useState } from 'react';
import type { Camera } from '@/lib/figures/projection';
import type { Anchor } from '@/lib/figures/region-outlines';
import type { LiveMap } from '../live-map/create-live-map';
import { drawnPlaces, placeUnder, placeWith } from '../live-map/picture';
import { whenWanted } from '../live-map/when-wanted';
import { en } from '../messages/en';
import { type View, viewHref } from '../view/view';
import { MapControls } from './map-controls';
import { MapReading, type ReadPlace } from './map-reading';

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
  /** Address of the outlines. */
  outlines: string;
  view: View;
}

/**
 * The map. The server's picture stands until the live map has drawn the same thing over it; all that the live map
 * shows it takes from that picture, so the two cannot differ.
 */
export function MapStage(properties: MapStageProperties) {
  const { picture, width, camera, anchors, stamp, source, outlines, view } = properties;
  const router = useRouter();
  const { lon, lat, zoom } = camera;
  const stage = useRef<HTMLDivElement>(null);
  const container = useRef<HTMLDivElement>(null);
  const names = useRef(anchors);
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
    live?.paint(drawnPlaces(stage.current!), view.by, view.place);
    setRead(null);
  }, [live, picture, view.by, view.place]);

  useEffect(
    () =>
      live?.listen({
        point: (place) => setRead(place ? placeWith(stage.current!, place) : null),
        open: (place) => router.push(viewHref({ ...view, place }), { scroll: false }),
      }),
    [live, router, view],
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
        <div className="map-controls-room">{live ? <MapControls map={live} /> : null}</div>
        <p className="quiet">{source}</p>
      </div>
      <MapReading read={read} href={read && viewHref({ ...view, place: read.place })} hint={en.map.hint} />
    </>
  );
}
