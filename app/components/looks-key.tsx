import { PLACE_STATUSES, type PlaceStatus } from '@/lib/vocabulary/terms';
import type { Speech } from '../messages/texts';
import { Strip } from './weed-cell';

/** The four looks of a strip in words. */
export function LooksKey({ speech: { texts } }: { speech: Speech }) {
  return (
    <ul className="looks-key">
      {PLACE_STATUSES.map((status) => (
        <li key={status}>
          <Strip numbers={{ status, estimate: EXAMPLES[status] }} />
          <span>{texts.weed.looks[status]}</span>
        </li>
      ))}
    </ul>
  );
}

/** Shares made up for the key. */
const EXAMPLES: Record<
  PlaceStatus,
  { tested: number; resistant: number; share: number; low: number; high: number } | null
> = {
  confirmed: { tested: 20, resistant: 12, share: 0.6, low: 0.39, high: 0.78 },
  'none confirmed': { tested: 12, resistant: 0, share: 0, low: 0, high: 0.24 },
  'no public information': null,
  'not screened': null,
};
