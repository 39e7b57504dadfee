import type { About } from './about';
import type { Described } from './data-package';
import type { Field } from './field';
import { NO_LICENCE } from './licence';

/** Metadata of the CSV files of a release as “CSV on the Web” has them (W3C recommendation of 2015): a table group. */
export function csvwMetadata(about: About, described: readonly Described[]): object {
  return {
    '@context': ['http://www.w3.org/ns/csvw', { '@language': 'en' }],
    'dc:title': about.title,
    'dc:description': about.description,
    'dc:publisher': about.programme,
    'dc:date': about.date,
    ...(about.licence ? { 'dc:license': { '@id': about.licence.url } } : { 'dc:rights': NO_LICENCE }),
    dialect: { encoding: 'utf-8', delimiter: ',', header: true, lineTerminators: ['\r\n'] },
    tables: described.flatMap(({ file, table }) =>
      table
        ? [
            {
              url: file.name,
              'dc:title': table.title,
              tableSchema: { columns: table.fields.map(column), primaryKey: table.key },
            },
          ]
        : [],
    ),
  };
}

function column({ name, meaning, type, required, minimum, maximum }: Field): object {
  return {
    name,
    titles: name,
    'dc:description': meaning,
    datatype:
      type === 'yes or no'
        ? { base: 'boolean', format: 'yes|no' }
        : {
            base: type,
            ...(minimum !== undefined && { minimum }),
            ...(maximum !== undefined && { maximum }),
          },
    null: '',
    ...(required && { required }),
  };
}
