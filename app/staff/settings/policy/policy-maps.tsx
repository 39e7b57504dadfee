import type { Region } from '@/lib/geography/types';
import { SHOWN_BY, type ShownPair } from '@/lib/jobs/how-shown';
import { periodLabel } from '@/lib/vocabulary/terms';
import { ShownChoice, ShownLegend, ShownMap, type ShownWindow } from '../../components/shown-map';
import { chosenPair, pairKey } from '../../messages/pairs';
import { settingsTexts } from '../../messages/settings';

const texts = settingsTexts.policy;

/** For one weed × group × window, how finely each county would be shown by the standing and the proposed policy. */
export function PolicyMaps(props: {
  now: readonly ShownPair[];
  then: readonly ShownPair[];
  region: Region;
  search: Record<string, string | string[] | undefined>;
  simulated: boolean;
}) {
  const { now, then, region, search, simulated } = props;
  // A proposed window may be so long that none is closed: then what stands is shown alone.
  const shown = then.length > 0 ? then : now;
  const pair = chosenPair(shown, search.pair);
  const window = pair?.windows.find(({ first }) => String(first) === search.window) ?? pair?.windows.at(-1);
  if (!pair || !window) return null;
  const before = windowNear(now, pair, window);
  const after = windowNear(then, pair, window);
  const picture = { pair, region, simulated };
  return (
    <section aria-labelledby="policy-maps">
      <h3 id="policy-maps">{texts.mapsHeading}</h3>
      <ShownChoice shown={shown} pair={pair} window={window} at="#policy-maps" />
      {before && after && isSame(before, after) ? <p>{differenceWords(before, after)}</p> : null}
      <div className="staff-two">
        <section aria-labelledby="map-now">
          <h4 id="map-now">{before ? texts.mapNow(periodLabel(before)) : texts.mapNoneNow}</h4>
          {before ? <ShownMap {...picture} window={before} prefix="now-" /> : null}
        </section>
        <section aria-labelledby="map-then">
          <h4 id="map-then">{after ? texts.mapThen(periodLabel(after)) : texts.mapNoneThen}</h4>
          {after ? <ShownMap {...picture} window={after} prefix="then-" /> : null}
        </section>
      </div>
      <ShownLegend />
    </section>
  );
}

/** The window of a pair with the last season of another one in it, else the last window before. */
function windowNear(
  shown: readonly ShownPair[],
  pair: ShownPair,
  { last }: ShownWindow,
): ShownWindow | undefined {
  const windows = shown.find((one) => pairKey(one) === pairKey(pair))?.windows ?? [];
  return windows.find((one) => one.first <= last && last <= one.last) ?? windows.at(-1);
}

function isSame(a: ShownWindow, b: ShownWindow): boolean {
  return a.first === b.first && a.last === b.last;
}

/** How many counties would be shown more or less finely. */
function differenceWords(before: ShownWindow, after: ShownWindow): string {
  const was = new Map(before.counties.map(([county, , by]) => [county, SHOWN_BY.indexOf(by)]));
  const steps = after.counties.map(([county, , by]) => SHOWN_BY.indexOf(by) - (was.get(county) ?? 0));
  return texts.mapDifference(
    steps.filter((step) => step < 0).length,
    steps.filter((step) => step > 0).length,
    steps.filter((step) => step === 0).length,
  );
}
