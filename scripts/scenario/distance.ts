/** Mean Earth radius in kilometres (IUGG). */
const EARTH_RADIUS = 6371.0088;

/** Great-circle distance in kilometres between two points in degrees (haversine: Sinnott 1984; from memory). */
export function kmBetween(a: { lon: number; lat: number }, b: { lon: number; lat: number }): number {
  const rad = Math.PI / 180;
  const sinLat = Math.sin(((b.lat - a.lat) * rad) / 2);
  const sinLon = Math.sin(((b.lon - a.lon) * rad) / 2);
  const h = sinLat * sinLat + Math.cos(a.lat * rad) * Math.cos(b.lat * rad) * sinLon * sinLon;
  return 2 * EARTH_RADIUS * Math.asin(Math.min(1, Math.sqrt(h)));
}
