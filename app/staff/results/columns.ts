import type { ResultRow } from '@/db/repositories/results';
import { countyName } from '@/lib/geography/atlas';
import { species } from '@/lib/vocabulary/species';
import { resultTexts as texts } from '../messages/results';

interface ResultColumn {
  heading: string;
  text: (row: ResultRow) => string;
}

const number = (value: number | null) => (value === null ? '' : String(value));

/** What the results table can show, and its CSV holds. */
export const RESULT_COLUMNS = {
  sample: { heading: 'Sample', text: ({ sample }) => sample },
  season: { heading: 'Season', text: ({ season }) => String(season) },
  weed: { heading: 'Weed', text: ({ species: code }) => species(code)?.commonName ?? code },
  latin: { heading: 'Scientific name', text: ({ species: code }) => species(code)?.scientificName ?? code },
  group: { heading: 'Group', text: ({ group }) => String(group) },
  actives: { heading: 'Active', text: ({ actives }) => actives.join(' + ') },
  rate: { heading: 'Rate (× label)', text: ({ rateMultiple }) => number(rateMultiple) },
  county: { heading: 'County', text: ({ county }) => countyName(county) ?? county },
  fips: { heading: 'FIPS', text: ({ county }) => county },
  treated: { heading: 'Treated', text: ({ treated }) => number(treated) },
  alive: { heading: 'Alive', text: ({ alive }) => number(alive) },
  result: { heading: 'Result', text: resultWords },
  design: { heading: 'Design', text: ({ design }) => design },
  assay: { heading: 'Assay', text: ({ assay }) => assay },
  laboratory: { heading: 'Laboratory', text: ({ laboratory }) => laboratory },
  operation: { heading: 'Operation', text: ({ operation }) => operation ?? '' },
  sender: { heading: 'Sent by', text: ({ sender }) => sender ?? '' },
  crop: { heading: 'Crop', text: ({ crop }) => crop ?? '' },
  funder: { heading: 'Funder', text: ({ funder }) => funder ?? '' },
  collected: { heading: 'Collected', text: ({ collected }) => collected ?? '' },
  received: { heading: 'Received', text: ({ received }) => received ?? '' },
  reported: { heading: 'Reported', text: ({ reported }) => reported ?? '' },
  share: {
    heading: 'May be counted in public',
    text: ({ publicShare }) => (publicShare ? texts.yes : texts.no),
  },
  sheet: { heading: 'Import', text: ({ sheetId }) => String(sheetId) },
  record: { heading: 'Row', text: ({ record }) => String(record) },
} as const satisfies Record<string, ResultColumn>;

export type ResultColumnName = keyof typeof RESULT_COLUMNS;

export const COLUMN_NAMES = Object.keys(RESULT_COLUMNS) as ResultColumnName[];

/** Those that are shown where nobody chose. */
export const USUAL_COLUMNS: readonly ResultColumnName[] = [
  ...(['sample', 'season', 'weed', 'group', 'actives', 'rate', 'county'] as const),
  ...(['treated', 'alive', 'result', 'design', 'laboratory'] as const),
];

/** The call, or why there is none. */
export function resultWords({ result, kind, contradictory }: ResultRow): string {
  if (contradictory) return `${result} (${texts.contradictory})`;
  return result ?? texts.kinds[kind];
}
