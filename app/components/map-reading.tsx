import { useSyncExternalStore } from 'react';
import type { createTold, Told } from '../live-map/told-place';
import type { MapTexts } from './map-texts';
import { ViewLink } from './wait-room';

/** Reads out the place that is pointed at: a card beside it where there is room, else a line under the map. */
export function MapReading({
  texts,
  told,
  hrefOf,
}: {
  texts: MapTexts;
  told: ReturnType<typeof createTold>;
  /** Address of the view with a place chosen. */
  hrefOf: (place: string) => string;
}) {
  const { read, side } = useSyncExternalStore(told.subscribe, told.get, nothingTold);
  return (
    <div className="map-reading" data-side={side} aria-live="polite">
      {read ? (
        <p>
          <strong>{read.name}</strong> {read.words}{' '}
          <ViewLink href={hrefOf(read.place)}>{texts.open}</ViewLink>
        </p>
      ) : null}
    </div>
  );
}

const NOTHING_TOLD: Told = { read: null, side: 'right' };
const nothingTold = () => NOTHING_TOLD;
