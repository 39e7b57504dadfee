import { purposeEnd } from '@/lib/release/files/purposes';

/** Para qué sirve un archivo de una publicación, por su nombre. */
export function purposeOf(name: string): string | null {
  const end = purposeEnd(name);
  return end === null ? null : (PURPOSES[end] ?? null);
}

const PURPOSES: Readonly<Record<string, string>> = {
  '-cells.csv':
    'Los recuentos como tabla: cada lugar, periodo, especie y grupo. Se abre en cualquier programa.',
  '-cells.parquet': 'Los mismos recuentos con columnas tipadas, para R, Python o una base de datos.',
  '-cells.xlsx': 'Los mismos recuentos como libro de cálculo, con el libro de códigos y las advertencias.',
  '-places.geojson': 'Contornos de todos los lugares y áreas, para llevar los recuentos a un mapa en un SIG.',
  '-places.topojson': 'Los mismos contornos, más pequeños, con los límites compartidos.',
  '-changes.csv':
    'Qué cambió desde la publicación anterior, celda por celda; vacío en una primera publicación.',
  '-changes.md': 'Qué cambió desde la publicación anterior, en palabras.',
  '-neighbours.csv': 'Qué condados se tocan, para repetir las pruebas de agrupamiento.',
  '-county-places.csv': 'En qué lugar se cuenta cada condado, por especie y grupo de temporadas.',
  '-findings.json': 'Los hallazgos con sus cifras y frases.',
  '-policy.json': 'Con qué reglas se reservan los recuentos pequeños.',
  '-code-book.md': 'Qué significa cada columna, y las advertencias.',
  '.csv-metadata.json': 'Los archivos CSV descritos para programas (norma CSVW).',
  'datapackage.json': 'Todos los archivos descritos para programas (Data Package).',
  '-catalogue.jsonld': 'Un registro para catálogos de datos (DCAT).',
  'CITATION.cff': 'Cómo citar la publicación.',
  '-citation.bib': 'La cita como BibTeX.',
  'README.md': 'Qué hay en la carpeta, y las advertencias.',
  SHA256SUMS: 'Sumas, para comprobar que los archivos llegaron enteros.',
  '-sha256.txt': 'Sumas, para comprobar que los archivos llegaron enteros.',
  '.zip': 'Todo lo anterior en un solo archivo.',
};
