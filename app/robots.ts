import type { MetadataRoute } from 'next';
import { headers } from 'next/headers';
import { originOf } from './view/origin-of';

/** Every view of the map is the same page with other parameters; search engines get the pages of the sitemap and the files. */
export default async function robots(): Promise<MetadataRoute.Robots> {
  const origin = originOf(await headers(), 'http://localhost');
  return {
    rules: { userAgent: '*', allow: '/', disallow: ['/*?', '/offline', '/es/offline'] },
    sitemap: `${origin}/sitemap.xml`,
  };
}
