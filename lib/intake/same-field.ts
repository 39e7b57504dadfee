/** Two points of one field are at most this far apart (own rule). */
export const SAME_FIELD_METRES = 150;

/** Whether two points, in degrees, may be of one field. */
export function isSameField(a: { lat: number; lon: number }, b: { lat: number; lon: number }): boolean {
  return metres(a, b) <= SAME_FIELD_METRES;
}

/** Distance on a sphere of 6,371,009 m; a plane is exact enough over a field. */
function metres(a: { lat: number; lon: number }, b: { lat: number; lon: number }): number {
  const radians = Math.PI / 180;
  const east = (b.lon - a.lon) * radians * Math.cos(a.lat * radians);
  return Math.hypot(east, (b.lat - a.lat) * radians) * 6_371_009;
}
