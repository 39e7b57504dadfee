import { writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { loadRegion } from '@/lib/geography/region';
import { partitionState } from './partition-state';

/**
 * The invented districts of the demonstration as the text of a JSON file, one county a line. Names say direction and
 * landscape; no agency's grouping or codes are used.
 */
export function larkspurBasinTable(): string {
  const rows = STATES.flatMap(({ state, columns, districts }) => {
    const { counties, neighbours } = loadRegion({ name: state, states: [state] });
    const rowsOfGrid = districts.length / columns;
    const groups = partitionState({
      counties,
      neighbours,
      columns,
      rows: rowsOfGrid,
      smallest: 8,
      largest: 13,
    });
    return counties.map(({ fips, name }, i) => {
      const [code, districtName] = districts[groups[i]!]!;
      return JSON.stringify({ fips, county: name, state, district: `${state}-${code}`, districtName });
    });
  });
  return `{\n  "about": ${JSON.stringify(ABOUT)},\n  "counties": [\n    ${rows.join(',\n    ')}\n  ]\n}\n`;
}

const ABOUT =
  'Invented for the demonstration: a grouping of the 328 counties of Kansas, Nebraska, South Dakota and Colorado ' +
  'into contiguous districts, made by scripts/scenario/make-districts.ts from where the counties lie and nothing ' +
  'else. It is no agency’s grouping. County names and codes: Census Bureau through us-atlas 3.0.1.';

/** Districts of each state down the columns of its grid, western column first, northern district first. */
const STATES: readonly {
  state: string;
  columns: number;
  districts: readonly (readonly [string, string])[];
}[] = [
  {
    state: 'CO',
    columns: 3,
    districts: [
      ['NW', 'Colorado north-west plateaus'],
      ['SW', 'Colorado south-west plateaus'],
      ['NM', 'Colorado northern mountains'],
      ['SM', 'Colorado southern mountains'],
      ['NE', 'Colorado north-east plains'],
      ['SE', 'Colorado south-east plains'],
    ],
  },
  { state: 'KS', columns: 3, districts: nineDistricts('Kansas') },
  { state: 'NE', columns: 3, districts: nineDistricts('Nebraska') },
  {
    state: 'SD',
    columns: 3,
    districts: [
      ['NW', 'South Dakota north-west'],
      ['SW', 'South Dakota south-west'],
      ['NC', 'South Dakota north centre'],
      ['SC', 'South Dakota south centre'],
      ['NE', 'South Dakota north-east'],
      ['SE', 'South Dakota south-east'],
    ],
  },
];

function nineDistricts(state: string): [string, string][] {
  return [
    ['NW', `${state} north-west`],
    ['W', `${state} west`],
    ['SW', `${state} south-west`],
    ['NC', `${state} north centre`],
    ['C', `${state} centre`],
    ['SC', `${state} south centre`],
    ['NE', `${state} north-east`],
    ['E', `${state} east`],
    ['SE', `${state} south-east`],
  ];
}

/** `npx tsx scripts/scenario/make-districts.ts` writes the table anew; the same outlines give the same bytes. */
if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const file = new URL('../../lib/geography/districts/larkspur-basin.json', import.meta.url);
  writeFileSync(file, larkspurBasinTable());
}
