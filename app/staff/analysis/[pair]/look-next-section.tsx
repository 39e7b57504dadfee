import type { LookNext, PlaceToLookAt } from '@/lib/findings/spread/look-next/types';
import { countyName } from '@/lib/geography/atlas';
import type { Region } from '@/lib/geography/types';
import { DataTable } from '../../components/data-table';
import { LookNextMap } from '../../components/look-next-map';
import { analysisTexts as texts } from '../../messages/analysis';
import { pairKey, pairWords } from '../../messages/pairs';

const FIRST = 20;

/** Where to look next, as a map and as a list. */
export function LookNextSection(props: { found: LookNext | null; region: Region; simulated: boolean }) {
  const { found, region, simulated } = props;
  return (
    <section aria-labelledby="look-next">
      <h2 id="look-next">{texts.lookNext}</h2>
      {found === null ? (
        <p>{texts.lookNextNone}</p>
      ) : (
        <>
          <p>{found.sentence}</p>
          <LookNextMap found={found} region={region} simulated={simulated} />
          <Ranked found={found} places={found.places.slice(0, FIRST)} />
          <details>
            <summary>{texts.lookNextAll(found.places.length)}</summary>
            <Ranked found={found} places={found.places} />
          </details>
          <p>
            <a href={`/staff/analysis/${pairKey(found)}/layer`}>{texts.lookNextFile}</a>
          </p>
        </>
      )}
    </section>
  );
}

function Ranked({ found, places }: { found: LookNext; places: readonly PlaceToLookAt[] }) {
  return (
    <DataTable
      caption={texts.lookNextTitle(pairWords(found), found.season)}
      columns={texts.lookNextColumns}
      rows={places.map(({ place, chance, low, high, reason, tested, lastTested }, at) => ({
        key: place,
        cells: [
          at + 1,
          countyName(place) ?? place,
          texts.chance(chance, low, high),
          reason,
          tested,
          lastTested ?? texts.never,
        ],
      }))}
    />
  );
}
