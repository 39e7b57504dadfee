import { SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import type { ReleaseHead } from '../types';
import { aboutRelease } from './about';
import { type ReleaseFile, releaseFile } from './release-file';

/** What is found wrong with a release after it was published: a note beside it, since the release never changes. */
export interface ErratumNote {
  /** 1, 2, 3 … within its release. */
  number: number;
  /** ISO day. */
  date: string;
  /** What is wrong, and what to do. */
  text: string;
}

/**
 * An erratum as a file of its own, `fencerow-release-3-erratum-1.md`, to stand beside the files of its release. The same
 * note gives the same bytes.
 */
export function erratumFile(
  head: Omit<ReleaseHead, 'files'>,
  { number, date, text }: ErratumNote,
): ReleaseFile {
  const about = aboutRelease({ head }, head.number);
  return releaseFile(
    `${about.stem}-erratum-${number}.md`,
    'text/markdown; charset=utf-8',
    `# Erratum ${number} to release ${head.number}

${about.simulated ? `**${SIMULATED_NOTICE}**\n\n` : ''}${about.programme}, ${date}. It concerns: ${about.title}, of ${about.date}.

${text}

The files of release ${head.number} stand as they were published: this note is no part of them and of their sums.
`,
  );
}

/** The sum of an erratum as a file beside it, to be checked with `sha256sum --check`. */
export function sumFile({ name, sha256 }: Pick<ReleaseFile, 'name' | 'sha256'>): ReleaseFile {
  return releaseFile(`${name}.sha256`, 'text/plain; charset=utf-8', `${sha256}  ${name}\n`);
}
