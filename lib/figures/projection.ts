import { type GeoProjection, geoMercator } from 'd3-geo';
import type { FeatureCollection } from 'geojson';
import type { PlaceKey, Region } from '@/lib/geography/types';

/** Size of a picture in user units. */
export interface Size {
  width: number;
  height: number;
  /** Key of the district or state that fills the picture; absent or null: the whole region. */
  focus?: PlaceKey | null;
}

/** Where a live map has to stand to cover the picture: centre in degrees, zoom for 512-pixel tiles. */
export interface Camera {
  lon: number;
  lat: number;
  zoom: number;
}

/** Room around the region, and below it for the stamp, in user units. */
export const MARGIN = 8;
export const FOOT = 36;

/** Web Mercator fitted to the outlines of the region, or of what is in focus; the projection that the live map uses. */
export function regionProjection(region: Region, { width, height, focus }: Size): GeoProjection {
  const inFocus = region.counties.filter(({ state, district }) => focus === state || focus === district);
  return geoMercator().fitExtent(
    [
      [MARGIN, MARGIN],
      [width - MARGIN, height - FOOT],
    ],
    outlines(inFocus.length > 0 ? inFocus : region.counties),
  );
}

/** Height at which a picture of this width holds the region with no empty border, in whole units. */
export function fittedHeight(region: Region, width: number): number {
  const projection = geoMercator().fitWidth(width - 2 * MARGIN, outlines(region.counties));
  const lats = region.counties.map((county) => county.geometry).flatMap(latitudes);
  const top = projection([0, Math.max(...lats)])![1];
  const bottom = projection([0, Math.min(...lats)])![1];
  return Math.ceil(bottom - top) + MARGIN + FOOT;
}

/**
 * Camera of the picture shown one CSS pixel to a unit; for a picture shown at width w add log2(w / width) to the zoom.
 */
export function regionCamera(region: Region, size: Size): Camera {
  const projection = regionProjection(region, size);
  const [lon, lat] = projection.invert!([size.width / 2, size.height / 2])!;
  return { lon, lat, zoom: Math.log2((2 * Math.PI * projection.scale()) / 512) };
}

function outlines(counties: Region['counties']): FeatureCollection {
  return {
    type: 'FeatureCollection',
    features: counties.map(({ geometry }) => ({ type: 'Feature', properties: {}, geometry })),
  };
}

function latitudes(geometry: Region['counties'][number]['geometry']): number[] {
  const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  return polygons.flatMap((rings) => rings.flatMap((ring) => ring.map(([, lat]) => lat!)));
}
