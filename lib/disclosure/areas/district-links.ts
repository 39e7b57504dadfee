import { summarise } from '@/lib/geography/neighbours/summarise';
import type { County, Region } from '@/lib/geography/types';
import { greatCircle } from '@/lib/stats/scan/great-circle';

/** What joining looks at of a region. */
export interface Joinable extends Pick<Region, 'neighbours'> {
  counties: readonly Pick<County, 'fips' | 'state' | 'district' | 'lon' | 'lat'>[];
}

/** Which counties of a district may be joined, and how far apart they lie. */
export interface DistrictLinks {
  links: number[][];
  /** Squared great-circle distances between the counties' points, km². */
  distances: Float64Array[];
}

/**
 * Links between the screened counties of a district: those that share an outline, those that touch the same county in
 * which nothing was screened, and, where that leaves parts, the nearest two counties of different parts.
 *
 * @param screened indices into `region.counties`, all of one district
 */
export function districtLinks(region: Joinable, screened: readonly number[]): DistrictLinks {
  const place = new Map(screened.map((county, i) => [county, i]));
  const district = region.counties[screened[0]!]!.district;
  const links = screened.map(() => new Set<number>());
  const join = (counties: readonly number[]) => {
    const places = counties.flatMap((county) => place.get(county) ?? []);
    for (const a of places) for (const b of places) if (a !== b) links[a]!.add(b);
  };
  for (const county of screened)
    for (const other of region.neighbours[county]!) if (place.has(other)) join([county, other]);
  for (const [county, neighbours] of region.neighbours.entries()) {
    if (!place.has(county) && region.counties[county]!.district === district) join(neighbours);
  }
  const distances = screened.map((a) =>
    Float64Array.from(screened, (b) => squaredKm(region.counties[a]!, region.counties[b]!)),
  );
  bridge(links, distances);
  return { links: summarise(links).neighbours, distances };
}

/** Links the nearest counties of different parts until all hang together. */
function bridge(links: Set<number>[], distances: readonly Float64Array[]): void {
  for (;;) {
    const part: number[] = [];
    summarise(links).components.forEach((counties, p) => {
      for (const county of counties) part[county] = p;
    });
    let [best, from, to] = [Infinity, -1, -1];
    for (let a = 0; a < links.length; a++) {
      for (let b = a + 1; b < links.length; b++) {
        if (part[a] !== part[b] && distances[a]![b]! < best) [best, from, to] = [distances[a]![b]!, a, b];
      }
    }
    if (from < 0) return;
    links[from]!.add(to);
    links[to]!.add(from);
  }
}

function squaredKm(a: { lon: number; lat: number }, b: { lon: number; lat: number }): number {
  return greatCircle(a.lon, a.lat, b.lon, b.lat) ** 2;
}
