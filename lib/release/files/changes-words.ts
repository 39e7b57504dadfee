import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { CellChange } from '../cell-changes';
import type { ReleaseBefore, ReleaseDraft } from '../types';
import type { About } from './about';

/** What changed since the release before, in words and numbers of cells, as a whole and by species and group. */
export function changesWords(
  about: About,
  { head, cube }: Pick<ReleaseDraft, 'head' | 'cube'>,
  before: ReleaseBefore | null,
  changes: readonly CellChange[],
): string {
  const title = `# ${about.title}: what changed\n\n`;
  if (!before)
    return `${title}This is the first release that stands: there is none to compare it with, so the table of changes is empty.\n`;
  const all = tally(changes);
  const same = cube.cells.length - all.appeared - all.changed;
  return `${title}Compared with release ${before.number} of ${before.head.date}, by what both show in public and nothing else.

- New cells: ${all.appeared}, of which ${all.published} are published and ${all.withheld} withheld.
- Cells that say something else: ${all.changed}. Withheld now and published before: ${all.hidden}. Published now and withheld before: ${all.shown}.
- Cells that are no longer there: ${all.disappeared}.
- Cells that say the same: ${same}.
${headLines(head, before.head)
  .map((line) => `- ${line}\n`)
  .join('')}
${byPair(head.pairs, changes)}`;
}

interface Tally {
  appeared: number;
  published: number;
  withheld: number;
  changed: number;
  hidden: number;
  shown: number;
  disappeared: number;
}

function tally(changes: readonly CellChange[]): Tally {
  const of = (kind: CellChange['change']) => changes.filter(({ change }) => change === kind);
  const [appeared, changed] = [of('appeared'), of('changed')];
  const became = (status: string) =>
    changed.filter(({ column, after }) => column === 'status' && after === status).length;
  return {
    appeared: appeared.length,
    published: appeared.filter(({ after }) => after === 'published').length,
    withheld: appeared.filter(({ after }) => after === 'withheld').length,
    changed: new Set(changed.map(({ cell }) => cell)).size,
    hidden: became('withheld'),
    shown: became('published'),
    disappeared: of('disappeared').length,
  };
}

function headLines(now: ReleaseDraft['head'], before: ReleaseDraft['head']): string[] {
  const seasons = now.closedSeasons.filter((season) => !before.closedSeasons.includes(season));
  const windows = now.windows.filter(({ first }) => before.windows.every((one) => one.first !== first));
  return [
    ...(seasons.length > 0 ? [`Seasons closed since: ${seasons.join(', ')}.`] : []),
    ...(windows.length > 0 ? [`New windows: ${windows.map(periodLabel).join(', ')}.`] : []),
    ...another('case definition', before.caseDefinition.version, now.caseDefinition.version),
    ...another('policy by which small counts are withheld', before.policy.version, now.policy.version),
  ];
}

function another(what: string, before: string, now: string): string[] {
  return before === now ? [] : [`Another ${what}: version ${now}, before ${before}.`];
}

function byPair(pairs: ReleaseDraft['head']['pairs'], changes: readonly CellChange[]): string {
  if (changes.length === 0) return '';
  const lines = pairs.flatMap(({ species, group }) => {
    const own = tally(changes.filter(({ cell }) => cell.species === species && cell.group === group));
    const { appeared, changed, hidden, shown, disappeared } = own;
    if (appeared + changed + disappeared === 0) return [];
    const weed = `${commonNameOf(species)} (${species})`;
    return [`| ${[weed, group, appeared, changed, hidden, shown, disappeared].join(' | ')} |`];
  });
  return `| species | group | new cells | saying something else | withheld now | published now | no longer there |
| --- | --- | --- | --- | --- | --- | --- |
${lines.join('\n')}
`;
}
