import type { About } from './about';
import { NO_LICENCE } from './licence';

/** How to cite a release, as CITATION.cff (Citation File Format 1.2.0). Each text is quoted as JSON, which YAML reads. */
export function citationFile(about: About): string {
  const text = JSON.stringify;
  return [
    'cff-version: 1.2.0',
    `message: ${text(`Please cite the release with its number and date.${about.licence ? '' : ` ${NO_LICENCE}`}`)}`,
    'type: dataset',
    `title: ${text(about.title)}`,
    `abstract: ${text(about.description)}`,
    'authors:',
    `  - name: ${text(about.programme)}`,
    `version: ${text(String(about.number))}`,
    `date-released: ${text(about.date)}`,
    'keywords:',
    ...about.keywords.map((word) => `  - ${text(word)}`),
    ...(about.licence ? [`license: ${about.licence.id}`] : []),
    '',
  ].join('\n');
}

/** The same as BibTeX. */
export function bibtex(about: About): string {
  const [year] = about.date.split('-');
  return `@misc{${about.stem},
  author = {{${tex(about.programme)}}},
  title = {{${tex(about.title)}}},
  year = {${year}},
  version = {${about.number}},
  note = {${tex(about.simulated ? `Simulated data, released on ${about.date}` : `Released on ${about.date}`)}}
}
`;
}

const TEX: Readonly<Record<string, string>> = {
  '\\': '\\textbackslash{}',
  '~': '\\textasciitilde{}',
  '^': '\\textasciicircum{}',
};

function tex(words: string): string {
  return words.replaceAll(/[\\~^&%$#_{}]/g, (mark) => TEX[mark] ?? `\\${mark}`);
}
