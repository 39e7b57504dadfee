import type { Policy } from '@/lib/disclosure/types';
import type { Consequence } from '@/lib/jobs/consequences';
import { commonNameOf } from '@/lib/vocabulary/species';

/** The consequences as a table for a terminal. */
export function consequenceTable(consequences: readonly Consequence[]): string {
  const blocks = consequences.map(({ name, policy, all, warning }) => {
    const rows = all.map((line) => [
      `  ${line.level}`,
      String(line.cells),
      part(line.published, line.cells),
      part(line.withheld, line.cells),
      part(line.withheld - line.primary, line.cells),
      part(line.leftOut, line.cells),
      String(line.populations),
      part(line.inside, line.populations),
    ]);
    return `${[name, ...rulesOf(policy)].join(', ')}\n${columns([HEAD, ...rows])}${warning ? `  ${warning}\n` : ''}`;
  });
  const names = consequences.map(({ name }) => name);
  const byPair = (consequences[0]?.pairs ?? []).map(({ species, group }) => [
    `  ${commonNameOf(species)} × group ${group}`,
    ...[0, 3].flatMap((level) =>
      consequences.map(({ pairs }) => {
        const own = pairs.find((pair) => pair.species === species && pair.group === group)?.levels[level];
        if (!own) return '–';
        return level === 0 ? part(own.inside, own.populations) : part(own.published, own.cells);
      }),
    ),
  ]);
  const over = ['', ...names.map((name) => `populations, ${name}`), ...names.map((name) => `cells, ${name}`)];
  return `${blocks.join('\n')}
By weed and group: populations inside published numbers of counties and areas, then published cells of state × season
${columns([over, ...byPair])}`;
}

const HEAD = [
  '  table',
  'cells',
  'published',
  'withheld',
  'to protect others',
  'left out',
  'populations',
  'inside published numbers',
];

function rulesOf(policy: Policy): string[] {
  const { minimumTested, minimumOperations, unanimousOperations, dominanceShare, windowLength } = policy;
  return [
    `at least ${minimumTested} populations and ${minimumOperations} operations`,
    `${unanimousOperations} operations where all or none are resistant`,
    `at most ${Math.round(100 * dominanceShare)} % from one`,
    `${windowLength} ${windowLength === 1 ? 'season' : 'seasons'} a window`,
  ];
}

function part(some: number, all: number): string {
  if (all === 0) return '–';
  const share = (100 * some) / all;
  // None and all are never the outcome of rounding.
  if (some > 0 && share < 1) return '<1 %';
  if (some < all && share > 99) return '>99 %';
  return `${Math.round(share)} %`;
}

function columns(rows: readonly string[][]): string {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  return rows
    .map(
      (row) =>
        `${row.map((text, i) => (i === 0 ? text.padEnd(widths[i]!) : text.padStart(widths[i]! + 2))).join('')}\n`,
    )
    .join('');
}
