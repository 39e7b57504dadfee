import type { Region } from '@/lib/geography/types';
import { commonNameOf } from '@/lib/vocabulary/species';
import { cellChanges } from './cell-changes';
import { codeBook } from './code-book';
import { aboutRelease } from './files/about';
import { archive } from './files/archive';
import { catalogueRecord } from './files/catalogue-record';
import { cellsTable } from './files/cells-table';
import { changesTable } from './files/changes-table';
import { changesWords } from './files/changes-words';
import { bibtex, citationFile } from './files/citation';
import { countyPlacesTable } from './files/county-places-table';
import { csvText } from './files/csv';
import { csvwMetadata } from './files/csvw';
import { type Described, dataPackage } from './files/data-package';
import type { Table } from './files/field';
import { furtherChangesTable } from './files/further-changes-table';
import { furtherTables } from './files/further-tables';
import { neighboursTable } from './files/neighbours-table';
import { parquetBytes } from './files/parquet';
import { outlines } from './files/places';
import { purposeOf } from './files/purposes';
import { readme } from './files/readme';
import { jsonFile, type ReleaseFile, releaseFile } from './files/release-file';
import { WORKSHEET_LINES, workbookBytes } from './files/workbook';
import { releaseChanges } from './release-changes';
import type { ReleaseBefore, ReleaseDraft } from './types';

export type { ReleaseFile } from './files/release-file';

export interface FilesOptions {
  /** The newest release that stands, which this one is compared with; without one, it is told to be the first. */
  before?: ReleaseBefore | null;
  /** Told of each file when it is made. */
  onFile?: (name: string) => void;
}

/**
 * The files of a release, made from its released cube, findings and the region alone: the counts as CSV (RFC 4180),
 * Parquet and a workbook, those by crop, by active and of multiple resistance as CSV, what changed since the release before, outlines, neighbours and the places of counties,
 * findings, policy and code book, descriptors, citation, sums, and all of it as one ZIP. The same draft and number give the same bytes. A table too long for a
 * worksheet comes without the workbook.
 */
export async function releaseFiles(
  draft: ReleaseDraft,
  number: number,
  region: Region,
  { before = null, onFile = () => {} }: FilesOptions = {},
): Promise<ReleaseFile[]> {
  const about = aboutRelease(draft, number);
  const described: Described[] = [];
  const add = (file: ReleaseFile, table?: Table) => {
    described.push({ file, purpose: purposeOf(file.name)!, ...(table && { table }) });
    onFile(file.name);
  };
  const { stem } = about;

  const cells = cellsTable(draft, number, region);
  const changes = before ? cellChanges(before.cells, draft.cube.cells) : [];
  const changed = changesTable(changes, before);
  const since = before?.further ? cellChanges(before.further, draft.cube.further) : null;
  const further = [...furtherTables(draft.cube, region), furtherChangesTable(since ?? [], before)];
  for (const table of [
    ...[cells, changed, ...further],
    ...[neighboursTable(region), countyPlacesTable(draft, region)],
  ])
    add(releaseFile(`${stem}-${table.name}.csv`, 'text/csv; charset=utf-8', csvText(table)), table);
  const words = { title: about.title, description: about.description };
  add(releaseFile(`${stem}-cells.parquet`, 'application/vnd.apache.parquet', parquetBytes(cells, words)));
  if (cells.rows.length < WORKSHEET_LINES)
    add(releaseFile(`${stem}-cells.xlsx`, WORKBOOK, await workbookBytes(cells, draft, number)));
  const shapes = outlines(draft, region, words);
  add(releaseFile(`${stem}-places.geojson`, 'application/geo+json', JSON.stringify(shapes.geojson)));
  add(releaseFile(`${stem}-places.topojson`, 'application/json', JSON.stringify(shapes.topojson)));
  add(jsonFile(`${stem}-findings.json`, 'application/json', findings(draft, number)));
  add(jsonFile(`${stem}-policy.json`, 'application/json', policy(draft, number)));
  add(releaseFile(`${stem}-code-book.md`, MARKDOWN, codeBook(draft, number)));
  add(
    releaseFile(
      `${stem}-changes.md`,
      MARKDOWN,
      changesWords(about, before && releaseChanges(draft, before, changes, since)),
    ),
  );
  add(releaseFile('CITATION.cff', 'text/yaml; charset=utf-8', citationFile(about)));
  add(releaseFile(`${stem}-citation.bib`, 'text/plain; charset=utf-8', bibtex(about)));
  // Descriptors tell of the files before them, so that no file has to tell of itself.
  add(jsonFile(`${stem}-cells.csv-metadata.json`, 'application/csvm+json', csvwMetadata(about, described)));
  add(jsonFile('datapackage.json', 'application/json', dataPackage(about, described)));
  add(jsonFile(`${stem}-catalogue.jsonld`, 'application/ld+json', catalogueRecord(about, described, region)));
  add(releaseFile('README.md', MARKDOWN, readme(about, described)));
  const sums = described.map(({ file: { sha256, name } }) => `${sha256}  ${name}\n`).join('');
  add(releaseFile('SHA256SUMS', 'text/plain; charset=utf-8', sums));
  const files = described.map(({ file }) => file);
  add(releaseFile(`${stem}.zip`, 'application/zip', archive(files, draft.head.date)));
  return described.map(({ file }) => file);
}

const MARKDOWN = 'text/markdown; charset=utf-8';
const WORKBOOK = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

function findings({ head, findings }: ReleaseDraft, number: number): object {
  const { programme, region, date, simulated, caseDefinition, tests } = head;
  const codes = [...new Set(head.pairs.map(({ species }) => species))];
  const speciesNames = Object.fromEntries(codes.map((code) => [code, commonNameOf(code)]));
  const about = 'Findings computed from the published cells of this release and from nothing else.';
  return {
    ...{ release: number, programme, region, date, simulated, about, caseDefinition },
    ...{ tests, speciesNames, findings },
  };
}

function policy({ head }: ReleaseDraft, number: number): object {
  const { programme, region, date, simulated, seasonTables, windows, furtherTables } = head;
  const tables = { windows, seasonTables, furtherTables };
  return { release: number, programme, region, date, simulated, policy: head.policy, ...tables };
}
