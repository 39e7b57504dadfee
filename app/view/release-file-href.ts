import type { ReleaseHead } from '@/lib/release/types';

/** Address of the one file of a release whose name ends so. */
export function releaseFileHref({ number, files }: ReleaseHead, end: string): string {
  const file = files.find(({ name }) => name.endsWith(end));
  return file ? `/releases/${number}/${encodeURIComponent(file.name)}` : `/releases/${number}`;
}
