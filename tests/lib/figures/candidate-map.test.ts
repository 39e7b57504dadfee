import { describe, expect, it } from 'vitest';
import { candidateMap } from '@/lib/figures/candidate-map';
import { atlasCounties } from '@/lib/geography/atlas';

const county = (fips: string) => atlasCounties().find((one) => one.fips === fips)!;
// Lancaster County, NE, and its neighbour Seward County.
const [LANCASTER, SEWARD] = [county('31109'), county('31159')];
const near = atlasCounties().filter(({ state }) => state === 'NE');
const SIZE = { width: 400, height: 300, label: 'Lancaster or Seward' };
const draw = (point: [number, number] | null) =>
  candidateMap({ candidates: [LANCASTER, SEWARD], counties: near, point, ...SIZE });

describe('the map of counties that may be meant', () => {
  it('draws each candidate with the number of its answer, and what lies around', () => {
    const svg = draw(null);
    expect(svg.match(/candidate-map-candidate/g)).toHaveLength(2);
    expect(svg).toMatch(/>1 Lancaster<.*>2 Seward</s);
    expect(svg.match(/candidate-map-around/g)!.length).toBeGreaterThan(5);
    expect(svg).toContain('aria-label="Lancaster or Seward"');
    expect(svg).not.toContain('candidate-map-point');
  });

  it('puts the point of the row inside the picture, in the county that holds it', () => {
    const svg = draw([LANCASTER.lon, LANCASTER.lat]);
    const [, x, y] = /cx="([\d.]+)" cy="([\d.]+)"/.exec(svg)!.map(Number);
    expect(x).toBeGreaterThan(0);
    expect(x).toBeLessThan(SIZE.width);
    expect(y).toBeGreaterThan(0);
    expect(y).toBeLessThan(SIZE.height);
    const [, west] = /cx="([\d.]+)"/.exec(draw([SEWARD.lon, SEWARD.lat]))!.map(Number);
    // Seward County lies west of Lancaster County (Census Bureau's outlines).
    expect(west).toBeLessThan(x!);
  });

  it('of no candidate is nothing', () => {
    expect(candidateMap({ candidates: [], counties: near, point: null, ...SIZE })).toBe('');
  });
});
