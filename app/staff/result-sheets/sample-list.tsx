import type { SampleFilter, SampleLine } from '@/db/repositories/result-sheets';
import { countyName } from '@/lib/geography/atlas';
import { today } from '@/lib/jobs/today';
import { commonNameOf } from '@/lib/vocabulary/species';
import { ActionForm } from '../components/action-form';
import { Field, TickField } from '../components/field';
import { sheetTexts as texts } from '../messages/result-sheets';
import { markReported } from './actions';

/** The samples of a page, with their sheets, and a form to note which were handed over. */
export function SampleList(props: {
  lines: readonly SampleLine[];
  filter: Omit<SampleFilter, 'limit' | 'after'>;
  mayMark: boolean;
  isFull: boolean;
}) {
  const { lines, filter, mayMark, isFull } = props;
  const ids = lines.map(({ id }) => id);
  const last = lines.at(-1)!;
  return (
    <>
      <p>
        <a href={`/staff/result-sheets/document?ids=${ids.join(',')}`}>{texts.document(ids.length)}</a>
      </p>
      <details open={!mayMark}>
        <summary>{texts.sheets}</summary>
        <ul className="staff-list">
          {lines.map(({ id, sample, species, county, results, reported }) => (
            <li key={id}>
              <a href={`/staff/result-sheets/${id}`}>{texts.open(sample)}</a>:{' '}
              {texts.line(commonNameOf(species), countyName(county) ?? county)};{' '}
              {texts.results(results, reported)}
            </li>
          ))}
        </ul>
      </details>
      {mayMark ? (
        <ActionForm
          action={markReported}
          submit={texts.mark}
          label={texts.ticks}
          className="staff-form sample-ticks"
        >
          <TickField
            name="ids"
            label={texts.ticks}
            options={lines.map(
              ({ id, sample, species, county, results, reported }) =>
                [
                  String(id),
                  sample,
                  `${texts.line(commonNameOf(species), countyName(county) ?? county)}; ${texts.results(results, reported)}`,
                ] as const,
            )}
          />
          <Field name="on" type="date" label={texts.on} value={today()} required />
        </ActionForm>
      ) : null}
      {isFull ? (
        <p>
          <a href={`/staff/result-sheets?${nextQuery(filter, last)}`}>{texts.next}</a>
        </p>
      ) : null}
    </>
  );
}

function nextQuery(filter: Omit<SampleFilter, 'limit' | 'after'>, last: SampleLine): string {
  const { season, laboratory, untold, sample } = filter;
  const query = new URLSearchParams({ season: String(season), which: untold ? 'untold' : 'all' });
  if (laboratory) query.set('laboratory', laboratory);
  if (sample) query.set('sample', sample);
  query.set('after', last.sample);
  query.set('afterId', String(last.id));
  return query.toString();
}
