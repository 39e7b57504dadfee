import type { Waiting, WaitReason } from '@/lib/release/revision/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { Outlook } from './outlook';

/**
 * What becomes of populations in the next release, as one sentence for the staff; none of none. Never public: that
 * something waits says that something came.
 */
export function outlookWords({ open, asReleased, enters, waits, waiting }: Outlook): string[] {
  const all = open + asReleased + enters + waits;
  const parts = [
    [
      enters,
      'enters the next release, if the audit lets it',
      'enter the next release, if the audit lets them',
    ],
    [
      waits,
      `waits with other late changes (${reasons(waiting)})`,
      `wait with other late changes (${reasons(waiting)})`,
    ],
    [asReleased, 'stands in public counts as before', 'stand in public counts as before'],
    [
      open,
      'is of a season that no release has told of yet',
      'are of seasons that no release has told of yet',
    ],
  ] as const;
  const said = parts.filter(([count]) => count > 0);
  const until = waits > 0 ? '; of what waits nothing public changes yet' : '';
  if (all === 0) return [];
  if (all === 1) return [`In public: it ${said[0]![1]}${until}.`];
  const numbers = said.map(
    ([count, one, more]) => `${count.toLocaleString('en')} ${count === 1 ? one : more}`,
  );
  return [`In public, of ${all.toLocaleString('en')} populations: ${numbers.join('; ')}${until}.`];
}

/** Why something waits, and in which cell. */
export function waitReason({ reason, cell }: Waiting['why']): string {
  return `${WORDS[reason]}${cell ? ` (${cell.placeKind} ${cell.place}, ${periodLabel(cell.period)})` : ''}`;
}

const MOST = 3;

function reasons(waiting: readonly Waiting[]): string {
  const different = [...new Set(waiting.map(({ group, why }) => `group ${group}: ${waitReason(why)}`))];
  const more = different.length > MOST ? [`and ${different.length - MOST} more`] : [];
  return [...different.slice(0, MOST), ...more].join('; ');
}

const WORDS: Record<WaitReason, string> = {
  'too few populations': 'too few populations would change',
  'too few operations': 'those that would change are of too few operations',
  'one operation': 'one operation sent too many of those that would change',
  alike: 'those that would change are all alike, of few operations',
  'a shown cell would have to be withheld': 'a cell that was shown could be shown no longer',
  'a withheld cell would be told': 'a withheld cell could be worked out',
  audit: 'a withheld cell would lose its protection beside earlier releases',
};
