import { type Period, periodLabel } from '@/lib/vocabulary/terms';
import type { Speech } from '../messages/texts';
import { periodsOf } from '../view/choices';
import { districtPlaces, type Place, statePlaces } from '../view/places';
import type { Report } from '../view/read-report';
import { windowKey } from '../view/view';
import { Choice, type Choices } from './choice';
import { ChoiceForm } from './choice-form';

/** What to show: a plain form that answers by address; with script, choosing is enough. */
export function ViewForm({
  speech,
  report: { head, region, view, place },
}: {
  speech: Speech;
  report: Report;
}) {
  const { texts } = speech;
  const species = [...new Set(head.pairs.map((pair) => pair.species))];
  const groups = head.pairs.filter((pair) => pair.species === view.species).map(({ group }) => group);
  const { windows, seasons } = periodsOf(head, view, view.layer, view.by);
  const options = (periods: readonly Period[]) =>
    [...periods].reverse().map((period) => [windowKey(period), periodWords(texts, head, period)] as const);
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
          { options: options(windows) },
          { label: texts.trend.heading, options: options(seasons) },
          { options: [['all', texts.form.allSeasons]] },
        ]}
      />
      <Choice
        name="place"
        label={texts.form.place}
        value={view.place}
        choices={placeChoices(texts, region, place)}
      />
      <input type="hidden" name="by" value={view.by} />
      <input type="hidden" name="layer" value={view.layer} />
      <input type="hidden" name="release" value={view.release} />
      <button type="submit">{texts.form.show}</button>
    </ChoiceForm>
  );
}

function periodWords(texts: Speech['texts'], { openSeason }: Report['head'], period: Period): string {
  const label = periodLabel(period);
  return period.first === openSeason ? `${label}*, ${texts.trend.unfinished}` : label;
}

/** Region, states and districts; a county is found by its name, and stands here once it is chosen. */
function placeChoices(texts: Speech['texts'], region: Report['region'], chosen: Place): Choices {
  const districts = districtPlaces(region);
  const choices = [
    ...(chosen.kind === 'county' ? [{ options: [[chosen.key, chosen.fullName] as const] }] : []),
    {
      options: [
        ['region', texts.form.wholeRegion] as const,
        ...statePlaces(region).map(({ key, name }) => [key, name] as const),
      ],
    },
    ...statePlaces(region).map(({ key, name }) => ({
      label: texts.form.districtsOf(name),
      options: districts
        .filter(({ state }) => state === key)
        .map((place) => [place.key, place.name] as const),
    })),
  ];
  return choices.filter(({ options }) => options.length > 0);
}
