import { periodLabel } from '@/lib/vocabulary/terms';
import type { Speech } from '../messages/texts';
import { countyPlaces, districtPlaces, type Place, statePlaces } from '../view/places';
import type { Report } from '../view/read-report';
import { windowKey } from '../view/view';
import { Choice, type Choices } from './choice';
import { ChoiceForm } from './choice-form';

/** What to show: a plain form that answers by address; with script, choosing is enough. */
export function ViewForm({ speech, report: { head, region, view } }: { speech: Speech; report: Report }) {
  const { texts } = speech;
  const species = [...new Set(head.pairs.map((pair) => pair.species))];
  const groups = head.pairs.filter((pair) => pair.species === view.species).map(({ group }) => group);
  const windows = [...head.windows].reverse();
  return (
    <ChoiceForm action={speech.at('/')} label={texts.form.label}>
      <Choice
        name="species"
        label={texts.form.species}
        value={view.species}
        choices={[{ options: species.map((eppo) => [eppo, texts.weedName(eppo, { latin: true })]) }]}
      />
      <Choice
        name="group"
        label={texts.form.group}
        value={String(view.group)}
        choices={[{ options: groups.map((group) => [String(group), texts.herbicideName(group).long]) }]}
      />
      <Choice
        name="window"
        label={texts.form.window}
        value={windowKey(view.window)}
        choices={[
          { options: windows.map((window) => [windowKey(window), periodLabel(window)]) },
          { options: [['all', texts.form.allSeasons]] },
        ]}
      />
      <Choice
        name="place"
        label={texts.form.place}
        value={view.place}
        choices={placeChoices(texts, region)}
      />
      <input type="hidden" name="by" value={view.by} />
      <button type="submit">{texts.form.show}</button>
    </ChoiceForm>
  );
}

function placeChoices(texts: Speech['texts'], region: Report['region']): Choices {
  const [districts, counties] = [districtPlaces(region), countyPlaces(region)];
  const inside = (places: readonly Place[], code: string) =>
    places.filter(({ state }) => state === code).map(({ key, name }) => [key, name] as const);
  const choices = [
    {
      options: [
        ['region', texts.form.wholeRegion] as const,
        ...statePlaces(region).map(({ key, name }) => [key, name] as const),
      ],
    },
    ...statePlaces(region).flatMap(({ key, name }) => [
      { label: texts.form.districtsOf(name), options: inside(districts, key) },
      { label: texts.form.countiesOf(name), options: inside(counties, key) },
    ]),
  ];
  return choices.filter(({ options }) => options.length > 0);
}
