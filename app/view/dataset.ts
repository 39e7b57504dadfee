import { aboutRelease } from '@/lib/release/files/about';
import type { ReleaseHead } from '@/lib/release/types';

/** A release, or what it says of one place, as search engines of data read it (schema.org/Dataset). */
export function dataset(
  head: ReleaseHead,
  place?: { name: string; fullName: string; key: string; pairs: readonly string[] },
): object {
  const about = aboutRelease({ head }, head.number);
  return {
    '@context': 'https://schema.org',
    '@type': 'Dataset',
    name: place
      ? `Herbicide-resistance screening in ${place.fullName}${head.simulated ? ' (simulated)' : ''}`
      : about.title,
    description: place
      ? `Public results of ${head.programme}: ${place.pairs.join(', ') || 'nothing screened'}. Small counts are withheld.`
      : about.description,
    keywords: about.keywords,
    identifier: about.stem,
    spatialCoverage: place?.fullName ?? head.region,
    temporalCoverage: `${about.seasons.first}/${about.seasons.last}`,
    version: String(head.number),
    datePublished: head.date,
    creator: { '@type': 'Organization', name: head.programme },
    ...(about.licence ? { license: about.licence.url } : {}),
    isAccessibleForFree: true,
    distribution: place
      ? [
          {
            '@type': 'DataDownload',
            encodingFormat: 'application/json',
            contentUrl: `/api/v1/releases/${head.number}/cells?place=${place.key}`,
          },
        ]
      : head.files.map(({ name, mediaType, bytes, sha256 }) => ({
          '@type': 'DataDownload',
          name,
          encodingFormat: mediaType.split(';')[0],
          contentSize: `${bytes} B`,
          sha256,
          contentUrl: `/releases/${head.number}/${encodeURIComponent(name)}`,
        })),
  };
}
