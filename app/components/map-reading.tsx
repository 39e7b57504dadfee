import Link from 'next/link';
import type { MapTexts } from './map-texts';
import { LinkWait } from './wait-room';

/** A place as the picture's own title tells it. */
export interface ReadPlace {
  place: string;
  name: string;
  words: string;
}

/** Reads out the place that is pointed at: a card beside it where there is room, else a line under the map. */
export function MapReading({
  texts,
  read,
  side,
  href,
}: {
  texts: MapTexts;
  read: ReadPlace | null;
  side: 'left' | 'right';
  href: string | null;
}) {
  return (
    <div className="map-reading" data-side={side} aria-live="polite">
      {read && href ? (
        <p>
          <strong>{read.name}</strong> {read.words}{' '}
          <Link href={href} scroll={false} prefetch={false}>
            {texts.open}
            <LinkWait />
          </Link>
        </p>
      ) : null}
    </div>
  );
}
