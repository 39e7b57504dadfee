import { sentenceStart } from '@/app/messages/format';
import { effortTone, type Fill, shareTone } from '@/lib/figures/looks';
import { mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight } from '@/lib/figures/projection';
import { fillSwatch } from '@/lib/figures/swatch';
import { countyName } from '@/lib/geography/atlas';
import type { Region } from '@/lib/geography/types';
import { SHOWN_BY, type ShownBy, type ShownPair } from '@/lib/jobs/how-shown';
import { type Pair, periodLabel } from '@/lib/vocabulary/terms';
import { pairKey, pairWords } from '../messages/pairs';
import { shownTexts as texts } from '../messages/shown';
import { DataTable } from './data-table';
import { Drawing } from './drawing';
import { ChoiceField } from './field';
import { stampOf } from './stamp';

export type ShownWindow = ShownPair['windows'][number];

const WIDTH = 900;

/** By how little a county is shown: the darker, the less. */
const FILLS: Record<ShownBy, Fill> = {
  county: { tone: effortTone(1), faint: false },
  area: { tone: effortTone(2), faint: false },
  district: { tone: effortTone(4), faint: false },
  none: { tone: shareTone(4), faint: false },
};

/** For one weed × group × window, the finest public place that shows each screened county; as a map and as a table. */
export function ShownMap(props: {
  pair: Pair;
  window: ShownWindow;
  region: Region;
  simulated: boolean;
  /** Keeps the ids of several pictures of a page apart. */
  prefix: string;
}) {
  const { pair, window, region, simulated, prefix } = props;
  const tallies = SHOWN_BY.map((by) => tallyOf(window, by)).filter(Boolean);
  const told = sentenceStart(tallies.join('; '));
  const title = texts.mapTitle(pairWords(pair), periodLabel(window));
  const picture = mapFigure({
    ...{ region, grain: 'county', title, description: texts.mapDescription(told), prefix },
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
    <>
      <p>{told}.</p>
      <Drawing markup={picture} className="staff-map" />
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
    </>
  );
}

/** What the fills of these maps mean. */
export function ShownLegend() {
  return (
    <ul className="staff-legend">
      {SHOWN_BY.map((by) => (
        <li key={by}>
          <Drawing markup={fillSwatch(FILLS[by], `by-${by}-`)} className="staff-swatch" />
          {texts.shownBy[by]}
        </li>
      ))}
      <li>
        <Drawing markup={fillSwatch({ tone: 'blank', faint: false }, 'by-blank-')} className="staff-swatch" />
        {texts.notScreened}
      </li>
    </ul>
  );
}

/** Chooses the pair and the window of these maps, in the address. */
export function ShownChoice(props: {
  shown: readonly ShownPair[];
  pair: ShownPair;
  window: ShownWindow;
  /** Where the page goes on. */
  at?: string;
}) {
  const { shown, pair, window, at } = props;
  return (
    <form method="get" action={at} className="staff-filter" aria-label={texts.mapChoose}>
      <ChoiceField
        name="pair"
        label={texts.pair}
        value={pairKey(pair)}
        options={shown.map((one) => [pairKey(one), pairWords(one)] as const)}
      />
      <ChoiceField
        name="window"
        label={texts.window}
        value={String(window.first)}
        options={pair.windows.map((one) => [String(one.first), periodLabel(one)] as const)}
      />
      <button type="submit">{texts.show}</button>
    </form>
  );
}

function tallyOf({ counties }: ShownWindow, by: ShownBy): string {
  const own = counties.filter(([, , how]) => how === by);
  const tested = own.reduce((sum, [, n]) => sum + n, 0);
  return own.length === 0 ? '' : texts.shownTally(texts.shownBy[by], own.length, tested);
}
