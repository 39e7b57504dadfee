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
  'zip',
  'bag',
  'plants',
  'females',
  'sex',
  'height',
  'sown',
  'sprayed',
  'scored',
  'reported',
  'run',
  'replicate',
  'checkTreated',
  'checkAlive',
  'resistantCheck',
  'emerged',
  'emergedUntreated',
  'result',
] as const;
export type Column = (typeof COLUMNS)[number];

/**
 * Without one column of each of these lines nothing can be judged; a laboratory's sheets may lack one where it is known
 * what every row would say.
 */
export const NEEDED: readonly (readonly Column[])[] = [
  ['sample'],
  ['collected'],
  ['county', 'lat', 'zip'],
  ['weed'],
  ['herbicide'],
  ['rate'],
  ['alive', 'result'],
  ['check', 'checkAlive', 'run'],
];

/** What a column that a sheet lacks says, where nothing else is known of the laboratory. */
export const USUAL_LACKING: Partial<Record<Column, string>> = { design: 'submitted', assay: 'whole plant' };

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
  zip: 'ZIP code',
  bag: 'Bag #',
  plants: 'Plants sampled',
  females: 'Female plants',
  sex: 'Sex of plants',
  height: 'Plant height (cm)',
  sown: 'Date sown',
  sprayed: 'Date sprayed',
  scored: 'Date scored',
  reported: 'Date reported',
  run: 'Run',
  replicate: 'Replicate',
  checkTreated: 'S check treated',
  checkAlive: 'S check alive',
  resistantCheck: 'R check',
  emerged: 'Emerged, treated',
  emergedUntreated: 'Emerged, untreated',
  result: 'Result',
};

/** The column that a heading means, in the trade's usual words, or null. */
export function columnOf(heading: string): Column | null {
  const key = headingKey(heading);
  const byWord = BY_WORD.get(key) ?? BY_WORD.get(key.replace(UNIT, ''));
  return byWord ?? BY_WORD.get(headingKey(heading.replace(ASIDE, ''))) ?? null;
}

/** What stands in brackets or after a star beside a heading: `Check killed (Y/N)`, `Collected (m/d/y)*`. */
const ASIDE = /\([^)]*\)|\[[^\]]*\]|\*.*$/g;

/** A unit at the end of a heading, such as of a height. */
const UNIT = /(incm|cm|mm|inches|inch|in)$/;

/** A heading without case, accents, blanks and marks, as it is looked up and remembered. */
export function headingKey(heading: string): string {
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
    'sample|sample #|sample no|sample id|id|sample code|sample name|seed lot|lot|lot #|biotype|entry|field id|accession|accession #|accession id|population|population id|pop id|lab id|lab #',
  collected:
    'date collected|harvest date|date of harvest|year collected|collection year|season|year|collected|collection date|date of collection|sampled|sampling date|date sampled',
  received: "date rec'd|date received|received|rec'd|received date|arrived|arrival date",
  state: 'state|field state|st|state code|state name|state abbreviation',
  county:
    'county|cty|county of field|field county|county (field)|county name|county fips|fips|fips code|county/parish|parish|cnty|county or parish',
  lat: 'lat|north|gps n|coordinates|gps|gps coordinates|lat/long|lat/lon|latlong|latitude|lat.|gps lat|gps latitude|y',
  lon: 'long|west|gps w|lon|longitude|lng|long.|gps long|gps lon|gps longitude|x',
  place: 'location notes|location|location description|site notes|site description|field location|directions',
  weed: 'weed|weed name (common or latin)|scientific name|common name|latin name|biotype species|plant species|weed species|species|weed name|plant|eppo code|eppo',
  herbicide:
    'herbicide / group|herbicide|group|herbicide group|soa|site of action|site of action group|active|active ingredient|ai|treatment|herbicide tested|herbicide or group|moa|mode of action|herbicide (group)',
  rate: 'rate|dose multiple|x dose|dose (x)|herbicide dose|dose|rate (x)|x rate|rate multiple|herbicide rate|multiple of label rate|label rate multiple',
  treated:
    'plants treated|treated|n treated|no treated|# treated|number treated|no. of plants treated|plants sprayed|sprayed|n|total plants|plants tested',
  alive:
    'plants alive|alive|n alive|no alive|# alive|number alive|survivors|plants surviving|survived|no. of survivors|plants with mutation',
  dat: 'dat|days after treatment|days after application|daa',
  check:
    's check|susceptible check|s-check|sensitive check|check|s check dead|check dead|check died|check killed|s check killed|susceptible check dead|susceptible check killed|check ok|s control|susceptible control',
  crop: 'crop|current crop|crop in field|crop sampled',
  operation:
    'grower/operation|farm code|grower code|operation code|farmer|client|client id|operation|grower|farm|operation id|farm id|grower id|producer',
  share:
    'ok to share|ok to publish county|consent public|public|may we publish|share|consent|permission|may share|public use|ok to publish|publish|consent to share',
  remarks: 'remarks|remark|comments|comment|notes|note',
  design: 'design|sampling design|survey type|how chosen|sampling',
  assay: 'assay|assay type|test type|method|type of test',
  funder: 'funder|funded by|funding|board|paid by',
  sender:
    'sent by|from|shipped by|agent|county agent|consultant|sender|submitter|submitted by|sent in by|adviser|advisor',
  laboratory: 'laboratory|lab|testing laboratory|greenhouse',
  zip: 'zip|zip code|zipcode|postal code|field zip',
  bag: 'bag|bag #|bag no|bag number|envelope|envelope #',
  plants:
    'plants sampled|plants collected|# plants sampled|number of plants sampled|plants in sample|mother plants',
  females: 'female plants|females|# females|number of females|female plants sampled|no. of female plants',
  sex: 'sex|sex of plants|plant sex|male/female',
  height:
    'plant height|height|height at spraying|plant height at spraying|height at application|plant height at application|weed height|weed size|plant size',
  sown: 'date sown|sown|sowing date|planted|planting date|date planted|seeded',
  sprayed:
    'date sprayed|spray date|spraying date|application date|date of application|date treated|treatment date|date applied',
  scored:
    'date scored|scored|scoring date|rating date|date rated|evaluation date|date evaluated|assessed|date assessed',
  reported: 'date reported|reported|report date|reported on|results sent|date results sent|letter sent',
  run: 'run|run #|run no|run id|experiment|trial|batch|run name',
  replicate: 'replicate|rep|rep #|replication|rep no|tray|tray #|pot|pot #|block',
  checkTreated: 's check treated|s check plants|susceptible check treated|check treated|s check n',
  checkAlive:
    's check alive|susceptible check alive|check alive|s check survivors|susceptible check survivors',
  resistantCheck: 'r check|resistant check|r-check|r control|resistant control|r check alive',
  emerged:
    'emerged treated|emerged, treated|emergence treated|plants emerged|emerged|seedlings treated|emergence',
  emergedUntreated:
    'emerged untreated|emerged, untreated|emergence untreated|untreated emerged|emerged control|seedlings untreated|untreated emergence',
  result:
    'result|call|status|r/s|resistance|resistant|verdict|classification|conclusion|final call|rating|outcome',
};

const BY_WORD = new Map(
  COLUMNS.flatMap((column) => WORDS[column].split('|').map((word) => [headingKey(word), column] as const)),
);
