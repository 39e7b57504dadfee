import { lookOf } from '@/lib/figures/looks';
import { swatch } from '@/lib/figures/swatch';
import { PLACE_STATUSES } from '@/lib/vocabulary/terms';
import { sentenceStart } from '../messages/format';
import type { Speech } from '../messages/texts';
import { Picture } from './picture';

/** The four looks of areas, by name. */
export function LookNames({ speech: { texts } }: { speech: Speech }) {
  return (
    <ul className="look-names">
      {PLACE_STATUSES.map((status) => (
        <li key={status}>
          <Picture markup={swatch(lookOf(status), null, `name-${lookOf(status)}-`)} />
          {sentenceStart(texts.status[status])}
        </li>
      ))}
    </ul>
  );
}
