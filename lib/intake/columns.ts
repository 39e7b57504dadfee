/** What a sheet's columns say. */
export const COLUMNS = [
  'sample',
  'collected',
  'received',
  'state',
  'county',
  'lat',
  'lon',
  'place',
  'weed',
  'herbicide',
  'rate',
  'treated',
  'alive',
  'dat',
  'check',
  'crop',
  'operation',
  'share',
  'remarks',
  'design',
  'assay',
  'funder',
  'sender',
  'laboratory',
] as const;
export type Column = (typeof COLUMNS)[number];

/** Without these nothing can be judged. */
export const NEEDED: readonly Column[] = [
  'sample',
  'collected',
  'county',
  'weed',
  'herbicide',
  'rate',
  'treated',
  'alive',
  'check',
];

/** The heading by which each column is asked for. */
export const HEADING: Readonly<Record<Column, string>> = {
  sample: 'Sample #',
  collected: 'Date collected',
  received: "Date rec'd",
  state: 'State',
  county: 'County',
  lat: 'Lat',
  lon: 'Long',
  place: 'Location notes',
  weed: 'Weed',
  herbicide: 'Herbicide / Group',
  rate: 'Rate',
  treated: 'Plants treated',
  alive: 'Plants alive',
  dat: 'DAT',
  check: 'S check',
  crop: 'Crop',
  operation: 'Grower/Operation',
  share: 'OK to share',
  remarks: 'Remarks',
  design: 'Design',
  assay: 'Assay',
  funder: 'Funder',
  sender: 'Sent by',
  laboratory: 'Laboratory',
};

/** The column that a heading means, in the trade's usual words, or null. */
export function columnOf(heading: string): Column | null {
  return BY_WORD.get(normalHeading(heading)) ?? null;
}

function normalHeading(heading: string): string {
  return heading
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/#|№|\bnum(ber)?\b/g, ' no ')
    .replace(/[^a-z0-9]/g, '');
}

/** Usual words for each column (common practice, no source). */
const WORDS: Readonly<Record<Column, string>> = {
  sample:
    'sample|sample #|sample no|sample id|id|sample code|sample name|accession|accession #|accession id|population|population id|pop id|lab id|lab #',
  collected: 'date collected|collected|collection date|date of collection|sampled|sampling date|date sampled',
  received: "date rec'd|date received|received|rec'd|received date|arrived|arrival date",
  state: 'state|st|state code|state name|state abbreviation',
  county: 'county|county name|county fips|fips|fips code|county/parish|parish|cnty|county or parish',
  lat: 'lat|latitude|lat.|gps lat|gps latitude|y',
  lon: 'long|lon|longitude|lng|long.|gps long|gps lon|gps longitude|x',
  place: 'location notes|location|location description|site notes|site description|field location|directions',
  weed: 'weed|weed species|species|weed name|plant|eppo code|eppo',
  herbicide:
    'herbicide / group|herbicide|group|herbicide group|soa|site of action|site of action group|active|active ingredient|ai|treatment|herbicide tested|herbicide or group|moa|mode of action|herbicide (group)',
  rate: 'rate|dose|rate (x)|x rate|rate multiple|herbicide rate|multiple of label rate|label rate multiple',
  treated:
    'plants treated|treated|n treated|no treated|# treated|number treated|no. of plants treated|plants sprayed|sprayed|n|total plants|plants tested',
  alive:
    'plants alive|alive|n alive|no alive|# alive|number alive|survivors|plants surviving|survived|no. of survivors|plants with mutation',
  dat: 'dat|days after treatment|days after application|daa',
  check:
    's check|susceptible check|s-check|sensitive check|check|s check dead|check killed|s check killed|s control',
  crop: 'crop|current crop|crop in field|crop sampled',
  operation: 'grower/operation|operation|grower|farm|operation id|farm id|grower id|producer',
  share: 'ok to share|share|consent|permission|may share|public use|ok to publish|publish|consent to share',
  remarks: 'remarks|remark|comments|comment|notes|note',
  design: 'design|sampling design|survey type|how chosen|sampling',
  assay: 'assay|assay type|test type|method|type of test',
  funder: 'funder|funded by|funding|board|paid by',
  sender: 'sent by|sender|submitter|submitted by|sent in by|adviser|advisor',
  laboratory: 'laboratory|lab|testing laboratory|greenhouse',
};

const BY_WORD = new Map(
  COLUMNS.flatMap((column) => WORDS[column].split('|').map((word) => [normalHeading(word), column] as const)),
);
