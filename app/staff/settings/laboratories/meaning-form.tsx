import { COLUMNS, HEADING } from '@/lib/intake/columns';
import { ActionForm } from '../../components/action-form';
import { ChoiceField, Field } from '../../components/field';
import { settingsTexts } from '../../messages/settings';
import { sayMeaning } from './actions';

const texts = settingsTexts.laboratories;

/** To say what a heading, a lacking column or a word means. */
export function MeaningForm({ name }: { name: string }) {
  const columns = COLUMNS.map((column) => [column, HEADING[column]] as const);
  return (
    <section aria-labelledby="change">
      <h2 id="change">{texts.change}</h2>
      <ActionForm action={sayMeaning} submit={texts.save}>
        <input type="hidden" name="name" value={name} />
        <ChoiceField name="kind" label={texts.kind} value="heading" options={texts.kinds} />
        <ChoiceField name="column" label={texts.column} options={[['', texts.aside], ...columns]} />
        <Field name="text" label={texts.text} hint={texts.textHint} />
        <Field name="as" label={texts.as} hint={texts.asHint} />
      </ActionForm>
    </section>
  );
}
