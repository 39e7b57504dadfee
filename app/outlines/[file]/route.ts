import { publicDatabase } from '@/app/database';
import { regionOf } from '@/app/region';
import { releaseByNumber } from '@/db/repositories/published';
import { regionGeoJson } from '@/lib/figures/region-geojson';

/** `/outlines/1.json`: outlines of the region of release 1 for the live map, with an ETag by the server. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ file: string }> },
): Promise<Response> {
  const number = /^([1-9]\d{0,8})\.json$/.exec((await params).file)?.[1];
  const head = number ? await releaseByNumber(publicDatabase(), Number(number)) : null;
  if (!head) {
    return new Response('There is no such release.\n', {
      status: 404,
      headers: { 'Content-Type': 'text/plain; charset=utf-8' },
    });
  }
  return new Response(regionGeoJson(regionOf(head)), {
    headers: { 'Content-Type': 'application/geo+json', 'Cache-Control': 'no-cache' },
  });
}
