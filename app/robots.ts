import type { MetadataRoute } from 'next';

/** Every view of the map is the same page with other parameters; search engines get the front page and the files. */
export default function robots(): MetadataRoute.Robots {
  return { rules: { userAgent: '*', allow: '/', disallow: '/*?' } };
}
