import type { Feature, FeatureCollection, MultiPolygon, Polygon, Position } from 'geojson';
import { feature } from 'topojson-client';
import type { GeometryCollection, Topology } from 'topojson-specification';
import { beforeAll, describe, expect, it } from 'vitest';
import type { ReleaseFile } from '@/lib/release/files';
import { countyPlacesTable } from '@/lib/release/files/county-places-table';
import { neighboursTable } from '@/lib/release/files/neighbours-table';
import { outlines } from '@/lib/release/files/places';
import { inventedRegion, inventedRelease } from '../../../app/invented-release';
import { inventedSquares } from '../../figures/invented-region';
import { type Line, named, readCsv } from './formats';

// Invented: a release of four states; its outlines and names of counties are real.
const region = inventedRegion();
const { draft, files: make } = inventedRelease();
let shapes: FeatureCollection<Polygon | MultiPolygon>;
let topology: Topology;
let cells: Line[];

beforeAll(async () => {
  const files = (await make(1)) as ReleaseFile[];
  shapes = JSON.parse(named(files, '.geojson').bytes.toString('utf8'));
  topology = JSON.parse(named(files, '.topojson').bytes.toString('utf8'));
  cells = readCsv(named(files, '-cells.csv'));
});

const polygonsOf = ({ geometry }: Feature<Polygon | MultiPolygon>) =>
  geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
const areaOf = (shape: Feature<Polygon | MultiPolygon>) =>
  polygonsOf(shape)
    .flat()
    .reduce((sum, ring) => sum + twiceArea(ring) / 2, 0);
const ofKind = (kind: string) => shapes.features.filter(({ properties }) => properties!.place_kind === kind);

describe('the outlines of a release', () => {
  it('have closed rings, outer ones counterclockwise and holes clockwise (RFC 7946, 3.1.6)', () => {
    for (const shape of shapes.features)
      for (const rings of polygonsOf(shape))
        for (const [i, ring] of rings.entries()) {
          expect(ring[0]).toEqual(ring.at(-1));
          expect(ring.length).toBeGreaterThanOrEqual(4);
          expect(twiceArea(ring) > 0, `${shape.id} ring ${i}`).toBe(i === 0);
        }
  });

  it('of states, of districts and of the region hold the area of their counties', () => {
    const whole = ofKind('county').reduce((sum, shape) => sum + areaOf(shape), 0);
    for (const kind of ['region', 'state', 'district']) {
      const area = ofKind(kind).reduce((sum, shape) => sum + areaOf(shape), 0);
      expect(area, kind).toBeCloseTo(whole, 6);
    }
  });

  it('of an area hold the area of its counties', () => {
    const byCounty = new Map(ofKind('county').map((shape) => [shape.properties!.place, areaOf(shape)]));
    expect(ofKind('area').length).toBeGreaterThan(10);
    for (const shape of ofKind('area')) {
      const own: string[] = shape.properties!.place.split('+');
      expect(areaOf(shape)).toBeCloseTo(
        own.reduce((sum, fips) => sum + byCounty.get(fips)!, 0),
        6,
      );
    }
  });

  it('are the same in TopoJSON, where neighbours share their arcs', () => {
    const seen = new Map<string, number>();
    for (const collection of Object.values(topology.objects) as GeometryCollection[])
      for (const { features } of [feature(topology, collection)])
        for (const shape of features as Feature<Polygon | MultiPolygon>[])
          seen.set(shape.id as string, Math.abs(areaOf(shape)));
    expect(seen.size).toBe(shapes.features.length);
    for (const shape of shapes.features) expect(seen.get(shape.id as string)).toBeCloseTo(areaOf(shape), 6);
    const points = topology.arcs.reduce((sum, arc) => sum + arc.length, 0);
    const repeated = ofKind('county').flatMap((shape) => polygonsOf(shape).flat(2)).length;
    expect(points).toBeLessThan(repeated * 0.75);
  });

  it('of two squares side by side are the rectangle that they make', () => {
    const squares = inventedSquares();
    const { geojson } = outlines({ head: { ...draft.head, areas: [] } }, squares, {});
    const district = (geojson as FeatureCollection<Polygon>).features.find(
      ({ id }) => id === 'district/AA-1',
    )!;
    const ring = district.geometry.coordinates[0]!;
    expect(twiceArea(ring)).toBe(4);
    expect(new Set(ring.map(String))).toEqual(
      new Set(['-100,40', '-99,40', '-99,41', '-99,42', '-100,42', '-100,41']),
    );
  });
});

describe('the table of counties and their places', () => {
  it('names for each window the places of the cells, and no others', () => {
    const { fields, rows } = countyPlacesTable(draft, region);
    const at = (name: string) => fields.findIndex((field) => field.name === name);
    const [species, first, kind, place] = ['species', 'first_season', 'place_kind', 'place'].map(at);
    const told = new Set(rows.map((row) => [row[species!], row[first!], row[kind!], row[place!]].join('|')));
    const windows = cells.filter(
      (line) => /county|area/.test(line.place_kind!) && line.first_season !== line.last_season,
    );
    const shown = new Set(
      windows.map((line) => [line.species, line.first_season, line.place_kind, line.place].join('|')),
    );
    expect(told).toEqual(shown);
  });
});

describe('the table of neighbours', () => {
  it('has each pair in both directions, and no county beside itself', () => {
    const pairs = neighboursTable(region).rows.map(([a, b]) => `${a} ${b}`);
    const known = new Set(pairs);
    expect(known.size).toBe(pairs.length);
    expect(pairs.length).toBe(region.neighbours.flat().length);
    for (const pair of pairs) {
      const [a, b] = pair.split(' ');
      expect(a).not.toBe(b);
      expect(known.has(`${b} ${a}`)).toBe(true);
    }
  });
});

function twiceArea(ring: readonly Position[]): number {
  let sum = 0;
  for (let i = 1; i < ring.length; i++)
    sum += ring[i - 1]![0]! * ring[i]![1]! - ring[i]![0]! * ring[i - 1]![1]!;
  return sum;
}
