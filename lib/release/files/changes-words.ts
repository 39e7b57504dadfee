import type { FurtherTable } from '@/lib/disclosure/further';
import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { ReleaseChanges } from '../release-changes';
import type { About } from './about';

/** What changed since the release before, in words and numbers of cells, as a whole and by species and group. */
export function changesWords(about: About, changes: ReleaseChanges | null): string {
  const title = `# ${about.title}: what changed\n\n`;
  if (!changes)
    return `${title}This is the first release that stands: there is none to compare it with, so the table of changes is empty.\n`;
  const { since, all, same } = changes;
  return `${title}Compared with release ${since.number} of ${since.date}, by what both show in public and nothing else.

- New cells: ${all.appeared}, of which ${all.published} are published and ${all.withheld} withheld.
- Cells that say something else: ${all.changed}. Withheld now and published before: ${all.hidden}. Published now and withheld before: ${all.shown}.
- Cells that are no longer there: ${all.disappeared}.
- Cells that say the same: ${same}.
${headLines(changes)
  .map((line) => `- ${line}\n`)
  .join('')}
${byPair(changes)}${byTable(changes)}`;
}

function headLines({ seasons, windows, caseDefinition, policy }: ReleaseChanges): string[] {
  return [
    ...(seasons.length > 0 ? [`Seasons closed since: ${seasons.join(', ')}.`] : []),
    ...(windows.length > 0 ? [`New windows: ${windows.map(periodLabel).join(', ')}.`] : []),
    ...another('case definition', caseDefinition),
    ...another('policy by which small counts are withheld', policy),
  ];
}

function another(what: string, versions: ReleaseChanges['policy']): string[] {
  return versions ? [`Another ${what}: version ${versions.now}, before ${versions.before}.`] : [];
}

function byTable({ further = [] }: ReleaseChanges): string {
  if (further.length === 0) return '';
  const lines = further.map(({ table, appeared, changed, hidden, shown, disappeared, same }) => {
    return `| ${[TABLES[table], appeared, changed, hidden, shown, disappeared, same].join(' | ')} |`;
  });
  return `
| further table | new cells | saying something else | withheld now | published now | no longer there | the same |
| --- | --- | --- | --- | --- | --- | --- |
${lines.join('\n')}
`;
}

const TABLES: Record<FurtherTable, string> = {
  crop: 'by crop',
  active: 'by active',
  'several groups': 'multiple resistance',
};

function byPair({ byPair: pairs }: ReleaseChanges): string {
  if (pairs.length === 0) return '';
  const lines = pairs.map(({ species, group, appeared, changed, hidden, shown, disappeared }) => {
    const weed = `${commonNameOf(species)} (${species})`;
    return `| ${[weed, group, appeared, changed, hidden, shown, disappeared].join(' | ')} |`;
  });
  return `| species | group | new cells | saying something else | withheld now | published now | no longer there |
| --- | --- | --- | --- | --- | --- | --- |
${lines.join('\n')}
`;
}
