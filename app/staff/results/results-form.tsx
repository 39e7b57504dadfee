import { RESULT_ORDERS } from '@/db/repositories/results';
import type { Region } from '@/lib/geography/types';
import { allGroups } from '@/lib/vocabulary/groups';
import { allSpecies } from '@/lib/vocabulary/species';
import { ASSAYS, DESIGNS } from '@/lib/vocabulary/terms';
import { ChoiceField, Field, TickField } from '../components/field';
import { resultTexts as texts } from '../messages/results';
import { fieldsOf, type ResultView, STATUSES } from './address';
import { COLUMN_NAMES, RESULT_COLUMNS } from './columns';

const ANY = ['', texts.any] as const;
const same = (values: readonly string[]) => values.map((value) => [value, value] as const);

/** Which results, in which order, with which columns: an ordinary form, so that the address holds the choice. */
export function ResultsForm(props: {
  view: ResultView;
  region: Region | null;
  laboratories: readonly string[];
}) {
  const { view, region, laboratories } = props;
  const chosen = Object.fromEntries(fieldsOf(view));
  const choice = (
    name: string,
    label: string,
    options: readonly (readonly [string, string])[],
    { any = true } = {},
  ) => (
    <ChoiceField name={name} label={label} value={chosen[name]} options={any ? [ANY, ...options] : options} />
  );
  return (
    <form action="/staff/results" method="get" aria-label={texts.filter} className="staff-results-form">
      <div className="staff-filter">
        <Field name="sample" label={texts.sample} value={chosen.sample} />
        {choice(
          'species',
          texts.species,
          allSpecies().map(({ eppo, commonName }) => [eppo, commonName] as const),
        )}
        {choice(
          'group',
          texts.group,
          allGroups().map(({ number, name }) => [String(number), `${number} · ${name}`]),
        )}
        <Field name="active" label={texts.active} value={chosen.active} />
        <Field name="first" type="number" label={texts.first} value={chosen.first} />
        <Field name="last" type="number" label={texts.last} value={chosen.last} />
        {choice('place', texts.place, placesOf(region))}
        {choice('status', texts.status, same(STATUSES))}
        {choice('design', texts.design, same(DESIGNS))}
        {choice('assay', texts.assay, same(ASSAYS))}
        {choice('laboratory', texts.laboratory, same(laboratories))}
        <Field name="sheet" type="number" label={texts.sheet} value={chosen.sheet} />
        <Field name="crop" label={texts.crop} value={chosen.crop} />
        <Field name="funder" label={texts.funder} value={chosen.funder} />
        {choice(
          'order',
          texts.order,
          RESULT_ORDERS.map((order) => [order, texts.orders[order]]),
          { any: false },
        )}
      </div>
      <details className="staff-columns">
        <summary>{texts.columnsHeading}</summary>
        <TickField
          name="column"
          label={texts.columnsHeading}
          values={view.columns}
          options={COLUMN_NAMES.map((name) => [name, RESULT_COLUMNS[name].heading] as const)}
        />
      </details>
      <button type="submit">{texts.show}</button>
    </form>
  );
}

function placesOf(region: Region | null): (readonly [string, string])[] {
  if (!region) return [];
  return region.states.flatMap(({ code, name }) => {
    const counties = region.counties.filter(({ state }) => state === code);
    const fips = counties[0]?.fips.slice(0, 2);
    if (!fips) return [];
    return [
      [fips, name] as const,
      ...counties.map((county) => [county.fips, `${county.name}, ${code}`] as const),
    ];
  });
}
