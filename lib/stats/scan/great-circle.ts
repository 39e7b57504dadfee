/** Mean Earth radius in kilometres (IUGG; the value that the reference scans use). */
export const EARTH_RADIUS = 6371.0088;

/**
 * Great-circle distance in km between two points in degrees, on a sphere of the mean Earth radius.
 * @source haversine: Sinnott 1984, Sky and Telescope 68(2):159 (from memory)
 */
export function greatCircle(lon1: number, lat1: number, lon2: number, lat2: number): number {
  const sinLat = Math.sin(((lat2 - lat1) * RADIANS) / 2);
  const sinLon = Math.sin(((lon2 - lon1) * RADIANS) / 2);
  const h = sinLat * sinLat + Math.cos(lat1 * RADIANS) * Math.cos(lat2 * RADIANS) * sinLon * sinLon;
  return 2 * EARTH_RADIUS * Math.asin(Math.min(1, Math.sqrt(h)));
}

/** A point in degrees on the sphere of radius 1: chords between such points grow with the great circle. */
export function onUnitSphere(lon: number, lat: number): [number, number, number] {
  const ring = Math.cos(lat * RADIANS);
  return [ring * Math.cos(lon * RADIANS), ring * Math.sin(lon * RADIANS), Math.sin(lat * RADIANS)];
}

export const RADIANS = Math.PI / 180;
