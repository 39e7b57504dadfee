import { waitReason } from '@/lib/jobs/outlook-words';
import type { Waiting } from '@/lib/release/revision/types';

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
  return `  ${county}  ${season}  ${species} × group ${group}: ${counts.join(', ')}; ${waitReason(why)}`;
}
