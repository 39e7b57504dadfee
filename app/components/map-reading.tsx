import Link from 'next/link';
import type { MapTexts } from './map-texts';

/** A place as the picture's own title tells it. */
export interface ReadPlace {
  place: string;
  name: string;
  words: string;
}

/** The line under the map that reads out the place that is pointed at. */
export function MapReading({
  texts,
  read,
  href,
}: {
  texts: MapTexts;
  read: ReadPlace | null;
  href: string | null;
}) {
  return (
    <div className="map-reading" aria-live="polite">
      {read && href ? (
        <p>
          <strong>{read.name}</strong> {read.words}{' '}
          <Link href={href} scroll={false} prefetch={false}>
            {texts.open}
          </Link>
        </p>
      ) : (
        <p className="quiet">{texts.hint}</p>
      )}
    </div>
  );
}
