import Link from 'next/link';
import { en } from '../messages/en';

/** A place as the picture's own title tells it. */
export interface ReadPlace {
  place: string;
  name: string;
  words: string;
}

/** The line under the map that reads out the place that is pointed at. */
export function MapReading({
  read,
  href,
  hint,
}: {
  read: ReadPlace | null;
  href: string | null;
  hint: string;
}) {
  return (
    <div className="map-reading" aria-live="polite">
      {read && href ? (
        <p>
          <strong>{read.name}</strong> {read.words}{' '}
          <Link href={href} scroll={false} prefetch={false}>
            {en.map.open}
          </Link>
        </p>
      ) : (
        <p className="quiet">{hint}</p>
      )}
    </div>
  );
}
