import { periodLabel } from '@/lib/vocabulary/terms';
import { en } from '../messages/en';
import { herbicideName, weedName } from '../view/names';
import { countyPlaces, districtPlaces, type Place, statePlaces } from '../view/places';
import type { Report } from '../view/read-report';
import { windowKey } from '../view/view';
import { Choice, type Choices } from './choice';
import { ChoiceForm } from './choice-form';

/** What to show: a plain form that answers by address; with script, choosing is enough. */
export function ViewForm({ report: { head, region, view } }: { report: Report }) {
  const species = [...new Set(head.pairs.map((pair) => pair.species))];
  const groups = head.pairs.filter((pair) => pair.species === view.species).map(({ group }) => group);
  const windows = [...head.windows].reverse();
  return (
    <ChoiceForm label={en.form.label}>
      <Choice
        name="species"
        label={en.form.species}
        value={view.species}
        choices={[{ options: species.map((eppo) => [eppo, weedName(eppo, { latin: true })]) }]}
      />
      <Choice
        name="group"
        label={en.form.group}
        value={String(view.group)}
        choices={[{ options: groups.map((group) => [String(group), herbicideName(group).long]) }]}
      />
      <Choice
        name="window"
        label={en.form.window}
        value={windowKey(view.window)}
        choices={[
          { options: windows.map((window) => [windowKey(window), periodLabel(window)]) },
          { options: [['all', en.form.allSeasons]] },
        ]}
      />
      <Choice name="place" label={en.form.place} value={view.place} choices={placeChoices(region)} />
      <input type="hidden" name="by" value={view.by} />
      <button type="submit">{en.form.show}</button>
    </ChoiceForm>
  );
}

function placeChoices(region: Report['region']): Choices {
  const [districts, counties] = [districtPlaces(region), countyPlaces(region)];
  const inside = (places: readonly Place[], code: string) =>
    places.filter(({ state }) => state === code).map(({ key, name }) => [key, name] as const);
  const choices = [
    {
      options: [
        ['region', en.form.wholeRegion] as const,
        ...statePlaces(region).map(({ key, name }) => [key, name] as const),
      ],
    },
    ...statePlaces(region).flatMap(({ key, name }) => [
      { label: en.form.districtsOf(name), options: inside(districts, key) },
      { label: en.form.countiesOf(name), options: inside(counties, key) },
    ]),
  ];
  return choices.filter(({ options }) => options.length > 0);
}
