import { publicDatabase } from '@/app/database';
import { regionOf } from '@/app/region';
import { releaseByNumber } from '@/db/repositories/published';
import { areasGeoJson, regionGeoJson } from '@/lib/figures/region-geojson';
import { findAreas } from '@/lib/geography/areas';
import type { ReleaseHead } from '@/lib/release/types';

/**
 * Outlines for the live map, with an ETag by the server: `/outlines/1.json` of the region of release 1,
 * `/outlines/1-KCHSC-2022.json` of the areas of a species in the window that begins with a season.
 */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ file: string }> },
): Promise<Response> {
  const [, number, species, first] =
    /^([1-9]\d{0,8})(?:-([A-Z0-9]{4,6})-(\d{4}))?\.json$/.exec((await params).file) ?? [];
  const head = number ? await releaseByNumber(publicDatabase(), Number(number)) : null;
  const body = head && outlines(head, species, Number(first));
  if (!body) {
    return new Response('There are no such outlines.\n', {
      status: 404,
      headers: { 'Content-Type': 'text/plain; charset=utf-8' },
    });
  }
  return new Response(body, {
    headers: { 'Content-Type': 'application/geo+json', 'Cache-Control': 'no-cache' },
  });
}

function outlines(head: ReleaseHead, species: string | undefined, first: number): string | null {
  const region = regionOf(head);
  if (species === undefined) return regionGeoJson(region);
  const table = findAreas(head.areas, species, first);
  return table && areasGeoJson(region, table);
}
