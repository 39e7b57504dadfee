/**
 * What a file of a release is for, by its name, for pages and descriptors; null for a file that no purpose is known of.
 */
export function purposeOf(name: string): string | null {
  return purpose(name)?.[1] ?? null;
}

/** The end of a name by which its purpose is known, so that it can be told in another language; null as `purposeOf`. */
export function purposeEnd(name: string): string | null {
  return purpose(name)?.[0] ?? null;
}

function purpose(name: string) {
  return PURPOSES.find(([end]) => name.endsWith(end));
}

/** Ends of names, the longer before those that they end with. */
const PURPOSES: readonly (readonly [string, string])[] = [
  ['-cells.csv', 'The counts as a table: every place, period, species and group. Opens anywhere.'],
  ['-cells.parquet', 'The same counts with typed columns, for R, Python or a database.'],
  ['-cells.xlsx', 'The same counts as a workbook, with the code book and the cautions.'],
  ['-crops.csv', 'The counts by crop, in states and seasons.'],
  ['-actives.csv', 'The counts by active, in districts and windows.'],
  ['-multiple-resistance.csv', 'How many populations are resistant to none, one, or more of the groups.'],
  ['-places.geojson', 'Outlines of all places and areas, to map the counts in a GIS.'],
  ['-places.topojson', 'The same outlines, smaller, with shared borders kept.'],
  ['-changes-further.csv', 'The same of the counts by crop, by active and of multiple resistance.'],
  ['-changes.csv', 'What changed since the release before, cell by cell; empty in a first release.'],
  ['-changes.md', 'What changed since the release before, in words.'],
  ['-neighbours.csv', 'Which counties touch, to repeat the tests of clustering.'],
  ['-county-places.csv', 'In which place each county is counted, by species and window.'],
  ['-findings.json', 'The findings with their figures and sentences.'],
  ['-policy.json', 'By which rules small counts are withheld.'],
  ['-code-book.md', 'What each column means, and the cautions.'],
  ['.csv-metadata.json', 'The CSV files described for programs (CSV on the Web).'],
  ['datapackage.json', 'All files described for programs (Data Package).'],
  ['-catalogue.jsonld', 'A record for data catalogues (DCAT).'],
  ['CITATION.cff', 'How to cite the release.'],
  ['-citation.bib', 'The citation as BibTeX.'],
  ['README.md', 'What is in the folder, and the cautions.'],
  ['SHA256SUMS', 'Sums, to check that files arrived whole.'],
  ['-sha256.txt', 'Sums, to check that files arrived whole.'],
  ['.zip', 'Everything above in one file.'],
];
