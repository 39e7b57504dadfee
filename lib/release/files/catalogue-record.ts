import type { Region } from '@/lib/geography/types';
import type { About } from './about';
import type { Described } from './data-package';
import { NO_LICENCE } from './licence';

/**
 * A release as a DCAT dataset (W3C, version 3) in JSON-LD, its context in it. Addresses of files are relative to that of
 * the record.
 */
export function catalogueRecord(about: About, described: readonly Described[], region: Region): object {
  return {
    '@context': CONTEXT,
    '@id': '',
    '@type': 'dcat:Dataset',
    'dct:title': about.title,
    'dct:description': about.description,
    'dct:identifier': about.stem,
    'dcat:version': String(about.number),
    'dct:issued': { '@type': 'xsd:date', '@value': about.date },
    'dct:publisher': { '@type': 'foaf:Agent', 'foaf:name': about.programme },
    ...(about.licence
      ? { 'dct:license': { '@id': about.licence.url } }
      : { 'dct:rights': { '@type': 'dct:RightsStatement', 'rdfs:label': NO_LICENCE } }),
    'dcat:keyword': about.keywords,
    'dct:temporal': {
      '@type': 'dct:PeriodOfTime',
      'dcat:startDate': { '@type': 'xsd:gYear', '@value': String(about.seasons.first) },
      'dcat:endDate': { '@type': 'xsd:gYear', '@value': String(about.seasons.last) },
    },
    'dct:spatial': {
      '@type': 'dct:Location',
      'dcat:bbox': { '@type': 'geo:wktLiteral', '@value': boxOf(region) },
    },
    'dcat:distribution': described.map(({ file, purpose }) => ({
      '@type': 'dcat:Distribution',
      'dct:title': file.name,
      'dct:description': purpose,
      'dcat:downloadURL': { '@id': file.name },
      'dcat:mediaType': {
        '@id': `https://www.iana.org/assignments/media-types/${file.mediaType.split(';')[0]}`,
      },
      'dcat:byteSize': { '@type': 'xsd:nonNegativeInteger', '@value': String(file.bytes.length) },
      'spdx:checksum': {
        '@type': 'spdx:Checksum',
        'spdx:algorithm': { '@id': 'spdx:checksumAlgorithm_sha256' },
        'spdx:checksumValue': { '@type': 'xsd:hexBinary', '@value': file.sha256 },
      },
    })),
  };
}

const CONTEXT = {
  dcat: 'http://www.w3.org/ns/dcat#',
  dct: 'http://purl.org/dc/terms/',
  foaf: 'http://xmlns.com/foaf/0.1/',
  rdfs: 'http://www.w3.org/2000/01/rdf-schema#',
  geo: 'http://www.opengis.net/ont/geosparql#',
  spdx: 'http://spdx.org/rdf/terms#',
  xsd: 'http://www.w3.org/2001/XMLSchema#',
};

/** The box of all counties as text, in degrees. */
function boxOf({ counties }: Region): string {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { geometry } of counties) {
    const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
    for (const [lon, lat] of polygons.flat(2) as [number, number][]) {
      west = Math.min(west, lon);
      east = Math.max(east, lon);
      south = Math.min(south, lat);
      north = Math.max(north, lat);
    }
  }
  const corners = [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ];
  const degrees = (value: number) => Math.round(value * 1e4) / 1e4;
  return `POLYGON((${corners.map(([lon, lat]) => `${degrees(lon!)} ${degrees(lat!)}`).join(', ')}))`;
}
