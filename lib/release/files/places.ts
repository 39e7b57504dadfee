import type { Feature, FeatureCollection, MultiPolygon, Polygon, Position } from 'geojson';
import { feature, mergeArcs, quantize } from 'topojson-client';
import { topology } from 'topojson-server';
import type {
  MultiPolygon as ArcMultiPolygon,
  Polygon as ArcPolygon,
  GeometryCollection,
  Topology,
} from 'topojson-specification';
import { areaKey, countiesOf, joinedAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import { areaPlacesOf, type Place, placesOf } from '../table-rows';
import type { ReleaseDraft } from '../types';

/** Steps of a degree to which outlines are rounded: about 10 m. */
const STEPS = 10_000;

export interface Outlines {
  geojson: object;
  topojson: object;
}

/**
 * Outlines of every place that the cells can name, as GeoJSON (RFC 7946: WGS 84, outer rings counterclockwise) and as
 * TopoJSON with shared arcs. They hold no count: `place_kind` and `place` join them to the cells. Outlines that are the
 * same to 0.0001° in both.
 */
export function outlines({ head }: Pick<ReleaseDraft, 'head'>, region: Region, about: object): Outlines {
  const counties = topologyOf(region);
  const arcsOf = new Map(
    (counties.objects.county as GeometryCollection).geometries.map((one) => [one.id as string, one as Arcs]),
  );
  const collections = new Map<string, GeometryCollection>();
  const features: Feature[] = [];
  for (const place of places(head, region)) {
    const own = membersOf(place, region).map((fips) => arcsOf.get(fips)!);
    const merged = own.length === 1 ? own[0]! : (mergeArcs(counties, own) as Arcs);
    const geometry = {
      type: merged.type,
      arcs: merged.arcs,
      id: `${place.placeKind}/${place.place}`,
      properties: propertiesOf(place),
    } as Arcs;
    const collection = collections.get(place.placeKind) ?? { type: 'GeometryCollection', geometries: [] };
    collections.set(place.placeKind, collection);
    collection.geometries.push(geometry);
    features.push(wound(feature(counties, geometry) as Feature<Polygon | MultiPolygon>));
  }
  const whole = { ...counties, objects: Object.fromEntries(collections) };
  const steps = { scale: [1 / STEPS, 1 / STEPS], translate: [0, 0] };
  return {
    geojson: { type: 'FeatureCollection', about, features },
    topojson: { ...quantize(whole as never, steps as never), about },
  };
}

type Arcs = ArcPolygon | ArcMultiPolygon;

function topologyOf({ counties }: Region): Topology {
  const features = counties.map(({ fips, geometry }) => ({
    type: 'Feature' as const,
    id: fips,
    properties: {},
    geometry: rounded(geometry),
  }));
  const collection: FeatureCollection = { type: 'FeatureCollection', features };
  return topology({ county: collection });
}

/** Without polygons that have no area: the atlas holds a few that are lines or points. */
function rounded(geometry: Polygon | MultiPolygon): Polygon | MultiPolygon {
  const ring = (positions: Position[]) =>
    positions.map(([lon, lat]) => [Math.round(lon! * STEPS) / STEPS, Math.round(lat! * STEPS) / STEPS]);
  const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  const kept = polygons
    .map((rings) => rings.map(ring).filter((one) => twiceArea(one) !== 0))
    .filter((rings) => rings.length > 0);
  return kept.length === 1
    ? { type: 'Polygon', coordinates: kept[0]! }
    : { type: 'MultiPolygon', coordinates: kept };
}

function places(head: ReleaseDraft['head'], region: Region): Place[] {
  const known = placesOf(region);
  const areaPlace = areaPlacesOf(region, known);
  const areas = new Map(head.areas.flatMap(joinedAreas).map((counties) => [areaKey(counties), counties]));
  const keys = [...areas.keys()].sort((a, b) => (a < b ? -1 : 1));
  return [...known, ...keys.map((key) => areaPlace(areas.get(key)!))];
}

function membersOf({ placeKind, place }: Place, { counties }: Region): string[] {
  if (placeKind === 'county' || placeKind === 'area') return countiesOf(place);
  const own = placeKind === 'region' ? counties : counties.filter((county) => county[placeKind] === place);
  return own.map(({ fips }) => fips);
}

function propertiesOf({ placeKind, place, placeName, state, district }: Place): object {
  return {
    place_kind: placeKind,
    place,
    place_name: placeName,
    state: state || null,
    district: district || null,
  };
}

/** Outer rings counterclockwise, holes clockwise; a shape of one polygon is a Polygon. */
function wound({ id, properties, geometry }: Feature<Polygon | MultiPolygon>): Feature {
  const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  const turned = polygons.map((rings) =>
    rings.map((ring, i) => (twiceArea(ring) > 0 === (i === 0) ? ring : [...ring].reverse())),
  );
  return {
    type: 'Feature',
    ...(id === undefined ? {} : { id }),
    properties,
    geometry:
      turned.length === 1
        ? { type: 'Polygon', coordinates: turned[0]! }
        : { type: 'MultiPolygon', coordinates: turned },
  };
}

/** Positive where the ring runs counterclockwise. */
function twiceArea(ring: readonly Position[]): number {
  let sum = 0;
  for (let i = 1; i < ring.length; i++)
    sum += ring[i - 1]![0]! * ring[i]![1]! - ring[i]![0]! * ring[i - 1]![1]!;
  return sum;
}
