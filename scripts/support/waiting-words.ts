import type { Waiting } from '@/lib/release/revision';
import { periodLabel } from '@/lib/vocabulary/terms';

/**
 * What waits, as lines for the staff: where, how many, and which public cell would change by too little. Never public:
 * that something waits says that something came.
 */
export function waitingWords(waiting: readonly Waiting[]): string[] {
  if (waiting.length === 0)
    return ['Nothing waits: all that may be shown is in the last release or will enter the next.'];
  const samples = waiting.reduce((sum, unit) => sum + unit.entering + unit.leaving + unit.corrected, 0);
  return [
    `${samples} results of ${waiting.length} county × season × species × group units wait (for the staff only):`,
    ...waiting.map(lineOf),
    'They enter together with others, when what changes in each public cell may be shown by itself.',
  ];
}

function lineOf({ county, season, species, group, entering, leaving, corrected, why }: Waiting): string {
  const counts = [
    [entering, 'to enter'],
    [leaving, 'to leave'],
    [corrected, 'corrected'],
  ]
    .filter(([count]) => count !== 0)
    .map(([count, word]) => `${count} ${word}`);
  return `  ${county}  ${season}  ${species} × group ${group}: ${counts.join(', ')}; ${reasonOf(why)}`;
}

/** Why something waits, and in which cell. */
export function reasonOf({ reason, cell }: Waiting['why']): string {
  const where = cell ? ` (${cell.placeKind} ${cell.place}, ${periodLabel(cell.period)})` : '';
  return `${WORDS[reason]}${where}`;
}

const WORDS: Record<Waiting['why']['reason'], string> = {
  'too few populations': 'too few populations would change',
  'too few operations': 'those that would change are of too few operations',
  'one operation': 'one operation sent too many of those that would change',
  alike: 'those that would change are all alike, of few operations',
  'a shown cell would have to be withheld': 'a cell that was shown could be shown no longer',
  'a withheld cell would be told': 'a withheld cell could be worked out',
  audit: 'a withheld cell would lose its protection beside earlier releases',
};
