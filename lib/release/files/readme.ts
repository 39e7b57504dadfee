import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import type { About } from './about';
import type { Described } from './data-package';
import { NO_LICENCE } from './licence';

/** What comes with a release: its files, the cautions, how to cite it. */
export function readme(about: About, described: readonly Described[]): string {
  return `# ${about.title}

${about.simulated ? `**${SIMULATED_NOTICE}**\n\n` : ''}${about.programme}, ${about.date}. A release never changes: a correction is a release with another number.

## Cautions

${CAUTIONS.map((caution) => `- ${caution}`).join('\n')}

## Files

${described.map(({ file, purpose }) => `- \`${file.name}\` (${file.bytes.length} bytes): ${purpose}`).join('\n')}

\`SHA256SUMS\` lists the SHA-256 of all files but itself and the ZIP: \`sha256sum --check SHA256SUMS\`.

## Reading them

Withheld, not screened and zero are three different things, in every format:

- \`status\` withheld: something was screened, \`tested\` and \`resistant\` are empty (null).
- \`status\` not screened: \`tested\` is 0, \`resistant\` is empty (null).
- \`status\` published: \`tested\` is at least 1; \`resistant\` may be 0, which is a result.

Outlines hold no counts. Join them to the cells by \`place_kind\` and \`place\`.

## Repeating the findings

\`${about.stem}-findings.json\` states the seed of the tests. With it, Fencerow’s \`npm run reproduce -- FOLDER\` computes each
finding anew from this folder alone and names what differs. The index of clustering stands as a formula in the code book.

## Licence and citation

${licence(about)}

Cite it as in \`CITATION.cff\`.
`;
}

function licence({ licence }: About): string {
  return licence ? `${licence.title} (${licence.id}): ${licence.url}` : NO_LICENCE;
}
