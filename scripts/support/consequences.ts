import type { Policy } from '@/lib/disclosure/types';
import { commonNameOf } from '@/lib/vocabulary/species';
import type { Season } from '@/lib/vocabulary/terms';
import { type GateOnlyInput, gateOnly } from './gate-only';
import { inAll, type PairShares, type PublishedShare, publishedShares } from './published-shares';

export interface Proposal {
  name: string;
  policy: Policy;
}

/** What a policy would leave to be seen. Private. */
export interface Consequence extends Proposal {
  all: PublishedShare[];
  pairs: PairShares[];
  /** Said where a policy makes no sense for these data; else null. */
  warning: string | null;
}

/**
 * A stricter and a looser policy beside the one that stands. Looser can only be what is no minimum: no policy may ask for
 * fewer populations or operations than the defaults.
 */
export function beside(standing: Policy): Proposal[] {
  return [
    { name: 'standing', policy: standing },
    {
      name: 'stricter',
      policy: {
        ...standing,
        version: 'stricter',
        minimumTested: 2 * standing.minimumTested,
        minimumOperations: 2 * standing.minimumOperations - 1,
        unanimousOperations: 2 * standing.unanimousOperations,
        dominanceShare: 0.8 * standing.dominanceShare,
      },
    },
    {
      name: 'looser',
      policy: {
        ...standing,
        version: 'looser',
        dominanceShare: 1 - (1 - standing.dominanceShare) / 2,
        windowLength: standing.windowLength + 1,
      },
    },
  ];
}

/** What each policy would publish and withhold of these facts, as if nothing had been released before. */
export async function consequencesOf(
  proposals: readonly Proposal[],
  ground: Omit<GateOnlyInput, 'policy' | 'areas'>,
  onPolicy: (name: string) => void = () => {},
): Promise<Consequence[]> {
  const found: Consequence[] = [];
  for (const { name, policy } of proposals) {
    onPolicy(name);
    const pairs = publishedShares(await gateOnly({ ...ground, policy }));
    const all = inAll(pairs);
    found.push({ name, policy, all, pairs, warning: warningOf(all, policy, ground.closedSeasons) });
  }
  return found;
}

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

function warningOf(all: readonly PublishedShare[], policy: Policy, closed: readonly Season[]): string | null {
  const sum = (name: 'cells' | 'published') => all.reduce((total, line) => total + line[name], 0);
  const windowed = all[0]!;
  if (sum('published') === 0) return 'This policy withholds everything: a release under it would be empty.';
  if (windowed.cells === 0) {
    return `No window of ${policy.windowLength} seasons is closed (closed: ${closed.length}), so nothing would be shown below states.`;
  }
  if (windowed.published === 0)
    return 'This policy withholds every county and area: the map would be empty below districts.';
  if (sum('published') === sum('cells')) {
    return 'This policy withholds nothing: every screened cell of these data passes it.';
  }
  return null;
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
