import { reassuranceSentence } from '@/lib/findings/spread/reassure-counties';
import type { SpreadAnalysis } from '@/lib/findings/spread/types';
import { countyName } from '@/lib/geography/atlas';
import { periodLabel } from '@/lib/vocabulary/terms';
import { analysisTexts as texts } from '../../messages/analysis';

/** Since when in each county, and what clean tests still allow in the others. */
export function PlaceByPlace({ spread }: { spread: SpreadAnalysis }) {
  const { firstDetections, reassurance } = spread;
  const clean = reassurance?.counties.filter(({ lastTested }) => lastTested !== null) ?? [];
  const [first, last] = reassurance?.seasons ?? [0, 0];
  return (
    <>
      <details>
        <summary>
          {texts.detections} ({firstDetections.length})
        </summary>
        <ul className="staff-list">
          {firstDetections.map(({ place, sentence }) => (
            <li key={place}>{sentence}</li>
          ))}
        </ul>
      </details>
      <details>
        <summary>
          {texts.clean} ({clean.length})
        </summary>
        <ul className="staff-list">
          {clean.map((county) => (
            <li key={county.county}>
              {reassuranceSentence(
                county,
                countyName(county.county) ?? county.county,
                periodLabel({ first, last }),
              )}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
