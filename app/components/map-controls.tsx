'use client';

import type { LiveMap } from '../live-map/create-live-map';
import type { MapTexts } from './map-texts';

/** Buttons for those who do not drag or turn a wheel. */
export function MapControls({ texts, map }: { texts: MapTexts; map: LiveMap }) {
  return (
    <fieldset className="map-controls" aria-label={texts.controls}>
      <button type="button" aria-label={texts.zoomIn} title={texts.zoomIn} onClick={() => map.zoom(1)}>
        +
      </button>
      <button type="button" aria-label={texts.zoomOut} title={texts.zoomOut} onClick={() => map.zoom(-1)}>
        −
      </button>
      <button type="button" aria-label={texts.whole} title={texts.whole} onClick={() => map.whole()}>
        ⤢
      </button>
      {PAN.map(([way, sign, x, y]) => (
        <button
          key={way}
          type="button"
          aria-label={texts[way]}
          title={texts[way]}
          onClick={() => map.pan(x, y)}
        >
          {sign}
        </button>
      ))}
    </fieldset>
  );
}

const PAN = [
  ['west', '←', -1, 0],
  ['north', '↑', 0, -1],
  ['south', '↓', 0, 1],
  ['east', '→', 1, 0],
] as const;
