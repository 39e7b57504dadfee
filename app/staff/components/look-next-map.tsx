import { effortTone, type Fill, plainFill } from '@/lib/figures/looks';
import { mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight } from '@/lib/figures/projection';
import { fillSwatch } from '@/lib/figures/swatch';
import type { LookNext } from '@/lib/findings/spread/look-next/types';
import { countyName } from '@/lib/geography/atlas';
import type { Region } from '@/lib/geography/types';
import { analysisTexts as texts } from '../messages/analysis';
import { pairWords } from '../messages/pairs';
import { Drawing } from './drawing';
import { stampOf } from './stamp';

const WIDTH = 900;
/** Rank up to which a county has the darkest ink, the next, … */
const BOUNDS = [10, 25, 50, Number.POSITIVE_INFINITY];

/** Counties without a find by their rank in the list of where to look next; those with one in the ink of finds. */
export function LookNextMap(props: { found: LookNext; region: Region; simulated: boolean }) {
  const { found, region, simulated } = props;
  const rankOf = new Map(found.places.map(({ place }, at) => [place, at + 1]));
  const picture = mapFigure({
    ...{ region, grain: 'county', prefix: 'look-', hiddenWords: '', chosen: null },
    title: texts.lookNextTitle(pairWords(found), found.season),
    description: `${texts.lookNextMap} ${found.sentence}`,
    size: { width: WIDTH, height: fittedHeight(region, WIDTH) },
    stamp: stampOf(simulated),
    places: region.counties.map(({ fips }) => {
      const rank = rankOf.get(fips);
      return {
        place: fips,
        name: countyName(fips) ?? fips,
        status: rank === undefined ? 'confirmed' : 'none confirmed',
        share: null,
        words: rank === undefined ? texts.found : `${texts.rank(rank)}. ${found.places[rank - 1]!.reason}`,
        fill: rank === undefined ? FOUND : fillOf(rank),
      };
    }),
  });
  return (
    <>
      <Drawing markup={picture} className="staff-map" />
      <ul className="staff-legend">
        {BOUNDS.map((bound, at) => (
          <li key={bound}>
            <Drawing markup={fillSwatch(fillOf(bound), `look-${at}-`)} className="staff-swatch" />
            {texts.lookClasses[at]}
          </li>
        ))}
        <li>
          <Drawing markup={fillSwatch(FOUND, 'look-found-')} className="staff-swatch" />
          {texts.found}
        </li>
      </ul>
    </>
  );
}

const FOUND = plainFill('confirmed', null);

function fillOf(rank: number): Fill {
  const at = BOUNDS.findIndex((bound) => rank <= bound);
  return { tone: effortTone(4 - at), faint: false };
}
