import type { SampleFilter } from '@/db/repositories/result-sheets';
import { ChoiceField, Field } from '../components/field';
import { sheetTexts as texts } from '../messages/result-sheets';

/** Which samples to list: an ordinary form, so that the address holds the choice. */
export function SampleForm(props: {
  filter: Omit<SampleFilter, 'limit' | 'after'>;
  years: readonly number[];
  laboratories: readonly string[];
}) {
  const { filter, years, laboratories } = props;
  return (
    <form action="/staff/result-sheets" method="get" className="staff-filter" aria-label={texts.choose}>
      <ChoiceField
        name="season"
        label={texts.season}
        value={String(filter.season)}
        options={years.map((year) => [String(year), String(year)] as const)}
      />
      <ChoiceField
        name="laboratory"
        label={texts.laboratory}
        value={filter.laboratory ?? ''}
        options={[['', texts.anyLaboratory], ...laboratories.map((one) => [one, one] as const)]}
      />
      <ChoiceField
        name="which"
        label={texts.which}
        value={filter.untold ? 'untold' : 'all'}
        options={[
          ['untold', texts.untold],
          ['all', texts.all],
        ]}
      />
      <Field name="sample" label={texts.sample} value={filter.sample ?? ''} />
      <button type="submit">{texts.show}</button>
    </form>
  );
}
