import { countyName } from '@/lib/geography/atlas';
import type { Region } from '@/lib/geography/types';
import { ASSAYS, DESIGNS, type Pair, type Period, periodKey, periodLabel } from '@/lib/vocabulary/terms';
import { ChoiceField } from '../components/field';
import { mapTexts as texts } from '../messages/map';
import { pairKey, pairWords } from '../messages/pairs';
import { grainsOf, LAYERS, type MapView, mapHref } from './map-view';

/** What to show: an ordinary form, so that the address holds the choice, and the switch to what the public sees. */
export function ViewForm(props: {
  view: MapView;
  pairs: readonly Pair[];
  periods: readonly Period[];
  region: Region;
  crops: readonly string[];
  funders: readonly string[];
}) {
  const { view, pairs, periods, region, crops, funders } = props;
  const any = ['', texts.all] as const;
  const places = {
    county: region.counties.map(({ fips }) => [fips, countyName(fips) ?? fips] as const),
    district: region.districts.map(({ code, name }) => [code, name] as const),
    state: region.states.map(({ code, name }) => [code, name] as const),
  }[view.by];
  return (
    <>
      <form action="/staff/map" method="get" className="staff-filter" aria-label={texts.choose}>
        <ChoiceField
          name="pair"
          label={texts.pair}
          value={pairKey(view.pair)}
          options={pairs.map((pair) => [pairKey(pair), pairWords(pair)] as const)}
        />
        <ChoiceField
          name="period"
          label={texts.period}
          value={periodKey(view.period)}
          options={periods.map((period) => [periodKey(period), periodLabel(period)] as const)}
        />
        <ChoiceField
          name="layer"
          label={texts.layer}
          value={view.layer}
          options={LAYERS.map((layer) => [layer, texts.layers[layer]] as const)}
        />
        <ChoiceField
          name="by"
          label={texts.by}
          value={view.by}
          options={grainsOf(region).map((grain) => [grain, texts.grains[grain]] as const)}
        />
        <ChoiceField
          name="design"
          label={texts.design}
          value={view.design ?? ''}
          options={[any, ...DESIGNS.map((design) => [design, texts.designs[design]] as const)]}
        />
        <ChoiceField
          name="assay"
          label={texts.assay}
          value={view.assay}
          options={ASSAYS.map((assay) => [assay, texts.assays[assay]] as const)}
        />
        <ChoiceField
          name="crop"
          label={texts.crop}
          value={view.crop ?? ''}
          options={[any, ...crops.map((crop) => [crop, crop] as const)]}
        />
        <ChoiceField
          name="funder"
          label={texts.funder}
          value={view.funder ?? ''}
          options={[any, ...funders.map((funder) => [funder, funder] as const)]}
        />
        <ChoiceField
          name="place"
          label={texts.place}
          value={places.some(([key]) => key === view.place) ? view.place : ''}
          options={[['', texts.whole], ...[...places].sort(([, a], [, b]) => (a < b ? -1 : 1))]}
        />
        {view.isPublic ? <input type="hidden" name="public" value="yes" /> : null}
        <button type="submit">{texts.show}</button>
      </form>
      <p>
        <a className="staff-button" href={mapHref({ ...view, isPublic: !view.isPublic })}>
          {view.isPublic ? texts.asStaff : texts.asPublic}
        </a>
      </p>
    </>
  );
}
