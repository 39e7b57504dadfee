import type { Region } from '@/lib/geography/types';
import type { FullDraftReport } from '@/lib/jobs/draft-report';
import { ShownChoice, ShownLegend, ShownMap } from '../../../components/shown-map';
import { chosenPair } from '../../../messages/pairs';
import { releaseTexts as texts } from '../../../messages/releases';

/** For one weed × group × window, what the public map loses county by county. */
export function LostMap(props: {
  report: FullDraftReport;
  region: Region;
  search: Record<string, string | string[] | undefined>;
  simulated: boolean;
}) {
  const { report, region, search, simulated } = props;
  const pair = chosenPair(report.shown, search.pair);
  if (!pair) return null;
  const window = pair.windows.find(({ first }) => String(first) === search.window) ?? pair.windows.at(-1);
  if (!window) return null;
  return (
    <section aria-labelledby="lost-map">
      <h2 id="lost-map">{texts.mapHeading}</h2>
      <ShownChoice shown={report.shown} pair={pair} window={window} />
      <ShownMap pair={pair} window={window} region={region} simulated={simulated} prefix="lost-" />
      <ShownLegend />
    </section>
  );
}
