import { patterns } from '@/lib/figures/patterns';
import { stripFigure } from '@/lib/figures/strip-figure';
import { element } from '@/lib/figures/svg';
import type { Speech } from '../messages/texts';
import type { PlaceNumbers } from '../view/place-numbers';
import { Picture } from './picture';

const PREFIX = 'weed-';

/** The textures of all strips of a page. */
export function StripPatterns() {
  return (
    <Picture
      className="patterns"
      markup={element('svg', { width: 0, height: 0, 'aria-hidden': 'true' }, patterns(PREFIX))}
    />
  );
}

/** A strip by itself. */
export function Strip({
  numbers: { status, estimate },
}: {
  numbers: Pick<PlaceNumbers, 'status' | 'estimate'>;
}) {
  return <Picture markup={stripFigure(status, estimate, PREFIX)} />;
}

/** The numbers of a place for a group: as a strip, and in words. */
export function WeedCell({ speech: { texts }, numbers }: { speech: Speech; numbers: PlaceNumbers }) {
  const { status, estimate } = numbers;
  return (
    <>
      <Strip numbers={numbers} />
      {estimate && estimate.tested > 0 ? (
        <>
          <span className="counts">
            {texts.weed.cell.counts(texts.count(estimate.resistant), texts.count(estimate.tested))}
          </span>{' '}
          <span className="share">
            {texts.percent(estimate.share)} <small>({texts.interval(estimate)})</small>
          </span>
        </>
      ) : (
        <span className="absent">
          {status === 'not screened' ? texts.weed.cell['not screened'] : texts.weed.cell.withheld}
        </span>
      )}
    </>
  );
}
