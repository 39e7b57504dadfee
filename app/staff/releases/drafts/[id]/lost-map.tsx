import { effortTone, type Fill, shareTone } from '@/lib/figures/looks';
import { mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight } from '@/lib/figures/projection';
import { fillSwatch } from '@/lib/figures/swatch';
import { countyName } from '@/lib/geography/atlas';
import type { Region } from '@/lib/geography/types';
import type { FullDraftReport } from '@/lib/jobs/draft-report';
import { SHOWN_BY, type ShownBy, type ShownPair } from '@/lib/jobs/how-shown';
import { periodLabel } from '@/lib/vocabulary/terms';
import { DataTable } from '../../../components/data-table';
import { Drawing } from '../../../components/drawing';
import { ChoiceField } from '../../../components/field';
import { stampOf } from '../../../components/stamp';
import { chosenPair, pairKey, pairWords } from '../../../messages/pairs';
import { releaseTexts as texts } from '../../../messages/releases';

const WIDTH = 900;

/** By how little a county is shown: the darker, the less. */
const FILLS: Record<ShownBy, Fill> = {
  county: { tone: effortTone(1), faint: false },
  area: { tone: effortTone(2), faint: false },
  district: { tone: effortTone(4), faint: false },
  none: { tone: shareTone(4), faint: false },
};

/** For one weed × group × window, the finest public place that shows each screened county; as a map and as a table. */
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
  const told = SHOWN_BY.map((by) => tallyOf(window, by))
    .filter(Boolean)
    .join('; ');
  const title = texts.mapTitle(pairWords(pair), periodLabel(window));
  const picture = mapFigure({
    ...{ region, grain: 'county', title, description: texts.mapDescription(told), prefix: 'lost-' },
    places: window.counties.map(([place, tested, by]) => ({
      place,
      name: countyName(place) ?? place,
      status: 'none confirmed',
      share: null,
      words: texts.countyWords(tested, texts.shownBy[by]),
      fill: FILLS[by],
    })),
    size: { width: WIDTH, height: fittedHeight(region, WIDTH) },
    hiddenWords: '',
    stamp: stampOf(simulated),
    chosen: null,
  });
  return (
    <section aria-labelledby="lost-map">
      <h2 id="lost-map">{texts.mapHeading}</h2>
      <form method="get" className="staff-filter" aria-label={texts.mapChoose}>
        <ChoiceField
          name="pair"
          label={texts.pair}
          value={pairKey(pair)}
          options={report.shown.map((one) => [pairKey(one), pairWords(one)] as const)}
        />
        <ChoiceField
          name="window"
          label={texts.window}
          value={String(window.first)}
          options={pair.windows.map((one) => [String(one.first), periodLabel(one)] as const)}
        />
        <button type="submit">{texts.show}</button>
      </form>
      <p>{told}.</p>
      <Drawing markup={picture} className="staff-map" />
      <ul className="staff-legend">
        {SHOWN_BY.map((by) => (
          <li key={by}>
            <Drawing markup={fillSwatch(FILLS[by], `by-${by}-`)} className="staff-swatch" />
            {texts.shownBy[by]}
          </li>
        ))}
        <li>
          <Drawing
            markup={fillSwatch({ tone: 'blank', faint: false }, 'by-blank-')}
            className="staff-swatch"
          />
          {texts.notScreened}
        </li>
      </ul>
      <details>
        <summary>{texts.countiesSummary(window.counties.length)}</summary>
        <DataTable
          caption={title}
          columns={texts.countiesColumns}
          rows={window.counties.map(([fips, tested, by]) => ({
            key: fips,
            cells: [countyName(fips) ?? fips, tested, texts.shownBy[by]],
          }))}
        />
      </details>
    </section>
  );
}

function tallyOf({ counties }: ShownPair['windows'][number], by: ShownBy): string {
  const own = counties.filter(([, , how]) => how === by);
  const tested = own.reduce((sum, [, n]) => sum + n, 0);
  return own.length === 0 ? '' : texts.shownTally(texts.shownBy[by], own.length, tested);
}
