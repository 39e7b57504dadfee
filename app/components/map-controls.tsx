'use client';

import type { LiveMap } from '../live-map/create-live-map';
import { en } from '../messages/en';

/** Buttons for those who do not drag or turn a wheel. */
export function MapControls({ map }: { map: LiveMap }) {
  return (
    <fieldset className="map-controls" aria-label={en.map.controls}>
      <button type="button" aria-label={en.map.zoomIn} title={en.map.zoomIn} onClick={() => map.zoom(1)}>
        +
      </button>
      <button type="button" aria-label={en.map.zoomOut} title={en.map.zoomOut} onClick={() => map.zoom(-1)}>
        −
      </button>
      <button type="button" aria-label={en.map.whole} title={en.map.whole} onClick={() => map.whole()}>
        ⤢
      </button>
      {en.map.pan.map(([words, sign, x, y]) => (
        <button key={words} type="button" aria-label={words} title={words} onClick={() => map.pan(x, y)}>
          {sign}
        </button>
      ))}
    </fieldset>
  );
}
