import { describe, expect, it } from 'vitest';
import { judgeAll } from './judging';

// One invented set of results, written as six laboratories of other habits would. Every cell is invented.
const STATES = ['ND', 'MT', 'WY', 'ID'];

interface Invented {
  sample: string;
  day: [year: number, month: number, day: number];
  state: string;
  county: string;
  fips: string;
  lat: number;
  lon: number;
  weed: Record<'latin' | 'common' | 'eppo', string>;
  herbicide: Record<'active' | 'number' | 'letter' | 'site', string>;
  rate: number;
  treated: number;
  alive: number;
  share: boolean;
}

const KOCHIA = { latin: 'Kochia scoparia (L.) Schrad.', common: 'kochia', eppo: 'KCHSC' };
const WILD_OAT = { latin: 'Avena fatua', common: 'wild oats', eppo: 'AVEFA' };
const EPSPS = { active: 'glyphosate', number: '9', letter: 'G', site: 'EPSPS inhibitor' };
const ACCASE = { active: 'clodinafop', number: '1', letter: 'A', site: 'ACCase inhibitors' };
const ROWS: Invented[] = [
  {
    ...{
      sample: 'P-1',
      day: [2025, 9, 14],
      state: 'ND',
      county: 'Cass',
      fips: '38017',
      lat: 46.93,
      lon: -97.25,
    },
    ...{ weed: KOCHIA, herbicide: EPSPS, rate: 1, treated: 40, alive: 30, share: true },
  },
  {
    ...{
      sample: 'P-2',
      day: [2025, 8, 30],
      state: 'MT',
      county: 'Chouteau',
      fips: '30015',
      lat: 47.88,
      lon: -110.43,
    },
    ...{ weed: KOCHIA, herbicide: EPSPS, rate: 1, treated: 24, alive: 0, share: true },
  },
  {
    ...{
      sample: 'P-3',
      day: [2025, 8, 21],
      state: 'ID',
      county: 'Latah',
      fips: '16057',
      lat: 46.82,
      lon: -116.71,
    },
    ...{ weed: WILD_OAT, herbicide: ACCASE, rate: 2, treated: 32, alive: 8, share: false },
  },
  {
    ...{
      sample: 'P-4',
      day: [2024, 10, 28],
      state: 'WY',
      county: 'Park',
      fips: '56029',
      lat: 44.5,
      lon: -109.15,
    },
    ...{ weed: WILD_OAT, herbicide: ACCASE, rate: 1, treated: 50, alive: 4, share: true },
  },
];
const EXPECTED = [
  ['P-1', '38017', 'KCHSC', 9, 'resistant', 2025, 40, 30, true],
  ['P-2', '30015', 'KCHSC', 9, 'susceptible', 2025, 24, 0, true],
  ['P-3', '16057', 'AVEFA', 1, 'resistant', 2025, 32, 8, false],
  ['P-4', '56029', 'AVEFA', 1, 'some survivors', 2024, 50, 4, true],
];

const two = (n: number) => String(n).padStart(2, '0');
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const NAMES: Record<string, string> = { ND: 'North Dakota', MT: 'Montana', WY: 'Wyoming', ID: 'Idaho' };
const degrees = (value: number) => {
  const seconds = Math.round(Math.abs(value) * 3600);
  return `${Math.floor(seconds / 3600)}°${Math.floor((seconds % 3600) / 60)}'${seconds % 60}"`;
};

const STYLES: Record<string, () => string | Uint8Array> = {
  'plain CSV': () =>
    sheet(
      'Sample #,Date collected,State,County,Weed,Herbicide / Group,Rate,Plants treated,Plants alive,S check,OK to share',
      ',',
      ({ sample, day: [y, m, d], state, county, weed, herbicide, rate, treated, alive, share }) => [
        ...[sample, `${y}-${two(m)}-${two(d)}`, state, county, weed.common, herbicide.active, `${rate}x`],
        ...[treated, alive, 'Y', share ? 'Y' : 'N'],
      ],
    ),
  'semicolons, decimal commas, Windows line ends and letters': () =>
    Buffer.from(
      sheet(
        'Accession No.;Collection Date;Latitude;Longitude;Scientific name;Site of action;Dose (x);n treated;Survivors;Susceptible check;Permission;Comments',
        ';',
        ({ sample, day: [y, m, d], lat, lon, weed, herbicide, rate, treated, alive, share }) => [
          ...[sample, `${m}/${d}/${y}`, String(lat).replace('.', ','), String(lon).replace('.', ',')],
          ...[
            weed.latin,
            herbicide.site,
            `${rate},0`,
            treated,
            alive,
            'dead',
            share ? 'yes' : 'no',
            'gr\u00fcn',
          ],
        ],
        '\r\n',
      ),
      'latin1',
    ),
  'UTF-16 with tabs, capitals, names of states in full': () =>
    Buffer.from(
      `\ufeff${sheet(
        'CONSENT\tEPPO CODE\tHERBICIDE GROUP\tLABEL RATE MULTIPLE\tLAB ID\tYEAR COLLECTED\tSTATE NAME\tCOUNTY NAME\tNO. TREATED\t# ALIVE\tCHECK KILLED',
        '\t',
        ({ sample, day: [y], state, county, weed, herbicide, rate, treated, alive, share }) => [
          ...[
            share ? 'TRUE' : 'FALSE',
            weed.eppo,
            herbicide.number,
            rate,
            sample,
            y,
            NAMES[state]!.toUpperCase(),
          ],
          ...[`${county.toUpperCase()} CO.`, treated, alive, 'yes'],
        ],
      )}`,
      'utf16le',
    ),
  'a title, blank lines, bars, codes of counties, counts in one cell': () =>
    `Invented screening, winter 2025/26\n\n${sheet(
      'Bag|Population|FIPS code|Species|Mode of action|Rate (x)|Alive|Date sampled|S check treated|S check alive|May share',
      '|',
      ({ sample, day: [y, m, d], fips, weed, herbicide, rate, treated, alive, share }) => [
        ...[
          `B${sample}`,
          sample,
          fips,
          weed.common.toUpperCase(),
          `Group ${herbicide.number} (${herbicide.active})`,
        ],
        ...[rate === 2 ? 'double' : 'label', `${alive} of ${treated}`, `${d} ${MONTHS[m - 1]} ${y}`, 20, 0],
        share ? 'x' : '',
      ],
    )}`,
  'old line ends, degrees and minutes, percentages, day first': () =>
    sheet(
      'Biotype,harvest date,GPS lat,GPS long,weed species,active ingredient,herbicide rate,plants sprayed,survivors,check dead (Y/N),OK to share*',
      ',',
      ({ sample, day: [y, m, d], lat, lon, weed, herbicide, rate, treated, alive, share }) => [
        ...[
          sample,
          d > 12 ? `${d}.${two(m)}.${y}` : `${y}${two(m)}${two(d)}`,
          `${degrees(lat)}N`,
          `${degrees(lon)}W`,
        ],
        ...[
          weed.latin,
          herbicide.active,
          `${rate} x`,
          treated,
          `${(100 * alive) / treated}%`,
          'killed',
          share ? 'ok' : '',
        ],
      ],
      '\r',
    ),
  'quoted cells, serial dates, counties with their states, columns of no concern': () =>
    sheet(
      '"id","internal cost","county","species","herbicide","dose","treated","alive","check","collected","public"',
      ',',
      ({ sample, day: [y, m, d], state, county, weed, herbicide, rate, treated, alive, share }) =>
        [
          ...[sample, '12.50', `${county}, ${state}`, `${weed.common} (${weed.latin})`, herbicide.active],
          ...[`${rate}X`, treated, alive, 'Y', (Date.UTC(y, m - 1, d) - Date.UTC(1899, 11, 30)) / 86_400_000],
          share ? 'yes' : 'no',
        ].map((cell) => `"${cell}"`),
    ),
};

function sheet(
  headings: string,
  delimiter: string,
  cells: (row: Invented) => (string | number)[],
  end = '\n',
): string {
  return [headings, ...ROWS.map((row) => cells(row).join(delimiter))].join(end) + end;
}

describe('the same results', () => {
  it.each(Object.keys(STYLES))('are judged the same: %s', async (style) => {
    const rows = await judgeAll(STYLES[style]!(), { states: STATES });
    const read = rows.map((row) =>
      row.outcome === 'accepted'
        ? [
            ...[row.sample, row.county, row.species, row.group, row.result, row.season],
            ...[row.treated, row.alive, row.publicShare],
          ]
        : [row.sample, ...row.reasons.map(({ code, reason }) => `${code}: ${reason}`)],
    );
    expect(read).toEqual(EXPECTED);
  });
});
