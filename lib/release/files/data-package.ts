import type { About } from './about';
import type { Field, Table } from './field';
import { NO_LICENCE } from './licence';
import type { ReleaseFile } from './release-file';

/** A file as a descriptor lists it; `table` where it is a CSV of one. */
export interface Described {
  file: ReleaseFile;
  purpose: string;
  table?: Table;
}

/** Descriptor of a release as a Data Package, each CSV with its Table Schema (frictionless specification, version 1). */
export function dataPackage(about: About, described: readonly Described[]): object {
  return {
    profile: 'data-package',
    name: about.stem,
    title: about.title,
    description: about.description,
    version: String(about.number),
    created: `${about.date}T00:00:00Z`,
    keywords: about.keywords,
    contributors: [{ title: about.programme, role: 'publisher' }],
    // A licence of a package has a name or an address; that there is none is told in a word of our own.
    ...(about.licence
      ? { licenses: [{ name: about.licence.id, title: about.licence.title, path: about.licence.url }] }
      : { rights: NO_LICENCE }),
    resources: described.map((one) => resource(about, one)),
  };
}

function resource(about: About, { file, purpose, table }: Described): object {
  return {
    profile: table ? 'tabular-data-resource' : 'data-resource',
    name: table?.name ?? resourceName(about, file.name),
    path: file.name,
    title: table?.title ?? purpose,
    description: purpose,
    format: file.name.slice(file.name.lastIndexOf('.') + 1),
    mediatype: file.mediaType.split(';')[0],
    bytes: file.bytes.length,
    hash: `sha256:${file.sha256}`,
    ...(table && {
      encoding: 'utf-8',
      dialect: { delimiter: ',', quoteChar: '"', doubleQuote: true, lineTerminator: '\r\n', header: true },
      schema: { fields: table.fields.map(schemaField), primaryKey: table.key, missingValues: [''] },
    }),
  };
}

/** Lower case, and the kind of file in it, for two files may differ in that alone. */
function resourceName({ stem }: About, name: string): string {
  return name
    .replace(`${stem}-`, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9.-]/g, '-');
}

function schemaField({ name, meaning, type, values, required, minimum, maximum }: Field): object {
  const constraints = {
    ...(required && { required }),
    ...(values && { enum: values }),
    ...(minimum !== undefined && { minimum }),
    ...(maximum !== undefined && { maximum }),
  };
  return {
    name,
    description: meaning,
    ...(type === 'yes or no' ? { type: 'boolean', trueValues: ['yes'], falseValues: ['no'] } : { type }),
    ...(Object.keys(constraints).length > 0 && { constraints }),
  };
}
