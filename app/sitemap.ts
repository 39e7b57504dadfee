import type { MetadataRoute } from 'next';
import { headers } from 'next/headers';
import { listReleases } from '@/db/repositories/published';
import { publicDatabase } from './database';
import { addressIn, LANGUAGES } from './messages/languages';
import { countySlug } from './view/county-slug';
import { weedPath } from './view/find-weed';
import { originOf } from './view/origin-of';
import { readHead } from './view/read-head';

/** Every page with an address of its own, in each language; while nothing is released, those that need no numbers. */
export default async function sitemap(): Promise<MetadataRoute.Sitemap> {
  const origin = originOf(await headers(), 'http://localhost');
  const paths = [...FIXED, ...(await releasedPaths())];
  return paths.map((path) => {
    const languages = LANGUAGES.map((language) => [language, origin + addressIn(language, path)] as const);
    return { url: origin + path, alternates: { languages: Object.fromEntries(languages) } };
  });
}

const FIXED = [
  '/',
  '/weeds',
  '/trends',
  '/counties',
  '/briefing',
  '/methods',
  '/privacy',
  '/words',
  '/releases',
  '/api',
];

async function releasedPaths(): Promise<string[]> {
  const reading = await readHead();
  if (reading.state !== 'ready') return [];
  const { head, region } = reading;
  const releases = await listReleases(publicDatabase());
  return [
    ...[...new Set(head.pairs.map(({ species }) => species))].map((species) => weedPath(species)),
    ...region.counties.map((county) => `/counties/${countySlug(county)}`),
    ...releases.filter(({ withdrawn }) => !withdrawn).map(({ number }) => `/releases/${number}`),
  ];
}

export const dynamic = 'force-dynamic';
