import type { Speech } from '../messages/texts';
import { districtPlaces, statePlaces } from '../view/places';
import type { TrendsReport } from '../view/trends-report';
import { pairKey } from '../view/trends-view';
import { Choice, type Choices } from './choice';
import { ChoiceForm } from './choice-form';

/** Weed and group, and the place: a plain form that answers by address. */
export function TrendsForm({
  speech,
  report: { head, region, pair, place },
}: {
  speech: Speech;
  report: TrendsReport;
}) {
  const { texts, at } = speech;
  const weeds = [...new Set(head.pairs.map(({ species }) => species))];
  const pairs: Choices = weeds.map((weed) => ({
    label: texts.weedName(weed, { latin: true }),
    options: head.pairs
      .filter(({ species }) => species === weed)
      .map((one) => [pairKey(one), texts.county.pair(texts.weedName(weed), one.group)] as const),
  }));
  const states = statePlaces(region);
  const places: Choices = [
    {
      options: [['region', texts.form.wholeRegion], ...states.map(({ key, name }) => [key, name] as const)],
    },
    ...states
      .map(({ key, name }) => ({
        label: texts.trends.districtsOf(name),
        options: districtPlaces(region)
          .filter(({ state }) => state === key)
          .map((district) => [district.key, district.name] as const),
      }))
      .filter(({ options }) => options.length > 0),
  ];
  return (
    <ChoiceForm action={at('/trends')} label={texts.form.label}>
      <Choice name="pair" label={texts.trends.pair} value={pairKey(pair)} choices={pairs} />
      <Choice name="place" label={texts.trends.place} value={place.key} choices={places} />
      <input type="hidden" name="release" value={head.number} />
      <button type="submit">{texts.form.show}</button>
    </ChoiceForm>
  );
}
