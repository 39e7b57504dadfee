import { publicDatabase } from '@/app/database';
import { regionOf } from '@/app/region';
import { noDocument } from '@/app/view/document-response';
import { missingRelease } from '@/app/view/missing-release';
import { countyPlaces } from '@/app/view/places';
import { releaseByNumber } from '@/db/repositories/published';
import { areasGeoJson, regionGeoJson } from '@/lib/figures/region-geojson';
import { findAreas } from '@/lib/geography/areas';
import type { ReleaseHead } from '@/lib/release/types';

/**
 * Outlines for the live map, with an ETag by the server: `/outlines/1.json` of the region of release 1,
 * `/outlines/1-KCHSC-2022.json` of the areas of a species in the window that begins with a season. Beside them
 * `/outlines/1-names.json`: FIPS code and name of each county, for whoever looks for one by name.
 */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ file: string }> },
): Promise<Response> {
  const [, number, species, first, names] =
    /^([1-9]\d{0,8})(?:-([A-Z0-9]{4,6})-(\d{4})|-(names))?\.json$/.exec((await params).file) ?? [];
  const head = number ? await releaseByNumber(publicDatabase(), Number(number)) : null;
  const body = head && (names ? countyNames(head) : outlines(head, species, Number(first)));
  if (!body) {
    const otherwise = 'There are no such outlines.';
    const { status, words } = await missingRelease(publicDatabase(), number ?? '', otherwise);
    return noDocument(status, words);
  }
  return new Response(body, {
    headers: {
      'Content-Type': names ? 'application/json' : 'application/geo+json',
      'Cache-Control': 'no-cache',
    },
  });
}

function countyNames(head: ReleaseHead): string {
  return JSON.stringify(countyPlaces(regionOf(head)).map(({ key, fullName }) => [key, fullName]));
}

function outlines(head: ReleaseHead, species: string | undefined, first: number): string | null {
  const region = regionOf(head);
  if (species === undefined) return regionGeoJson(region);
  const table = findAreas(head.areas, species, first);
  return table && areasGeoJson(region, table);
}
