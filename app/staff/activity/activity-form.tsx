import type { ActivityFilter } from '@/db/repositories/activity';
import { ChoiceField, Field } from '../components/field';
import { activityTexts as texts } from '../messages/activity';

/** Which lines of the log to show: an ordinary form, so that the address holds the choice. */
export function ActivityForm({
  filter,
  choices,
}: {
  filter: ActivityFilter;
  choices: { by: string[]; what: string[] };
}) {
  const any = [['', texts.any]] as const;
  const own = (values: string[]) => values.filter(Boolean).map((value) => [value, value] as const);
  return (
    <form action="/staff/activity" method="get" className="staff-filter" aria-label={texts.filter}>
      <ChoiceField name="by" label={texts.by} value={filter.by} options={[...any, ...own(choices.by)]} />
      <ChoiceField
        name="what"
        label={texts.what}
        value={filter.what}
        options={[...any, ...own(choices.what)]}
      />
      <Field name="about" label={texts.about} value={filter.about} />
      <Field name="from" type="date" label={texts.from} value={filter.from} />
      <Field name="to" type="date" label={texts.to} value={filter.to} />
      <button type="submit">{texts.show}</button>
    </form>
  );
}
