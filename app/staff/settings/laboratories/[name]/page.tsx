import type { ReactNode } from 'react';
import { laboratoryProfile, listLaboratories } from '@/db/repositories/laboratories';
import { may } from '@/lib/access/rights';
import { type Column, HEADING } from '@/lib/intake/columns';
import { ActionForm } from '../../../components/action-form';
import { DataTable } from '../../../components/data-table';
import { Sorry } from '../../../components/sorry';
import { staffPage } from '../../../guard/staff-page';
import { staff } from '../../../messages/en';
import { settingsTexts } from '../../../messages/settings';
import { forgetHeading } from '../actions';
import { MeaningForm } from '../meaning-form';

const texts = settingsTexts.laboratories;

/** What is remembered of a laboratory's sheets. */
export default staffPage('settings.see', async ({ db, person, params }) => {
  const name = decodeURIComponent(params.name ?? '');
  if (!(await listLaboratories(db)).includes(name)) {
    return { title: staff.notFound.heading, status: 404, content: <Sorry text={staff.notFound.text} /> };
  }
  const mayChange = may(person.roles, 'laboratories.change');
  const { headings, lacking, readings } = await laboratoryProfile(db, name);
  return {
    title: texts.of(name),
    content: (
      <>
        <p>{texts.intro}</p>
        <Meanings
          caption={texts.headings}
          columns={mayChange ? [...texts.headingColumns, texts.forget] : texts.headingColumns}
          rows={Object.entries(headings).map(([heading, column]) => [
            heading,
            column ? HEADING[column] : texts.aside,
            ...(mayChange ? [<Forget key="forget" name={name} heading={heading} />] : []),
          ])}
        />
        <Meanings
          caption={texts.lacking}
          columns={texts.lackingColumns}
          rows={Object.entries(lacking).map(([column, text]) => [HEADING[column as Column], text])}
        />
        <Meanings
          caption={texts.readings}
          columns={texts.readingColumns}
          rows={readings.map(({ column, text, as }) => [HEADING[column], text, as])}
        />
        {mayChange ? <MeaningForm name={name} /> : <p className="quiet">{settingsTexts.may}</p>}
        <p>
          <a href="/staff/settings/laboratories">{texts.back}</a>
        </p>
      </>
    ),
  };
});

function Meanings(props: {
  caption: string;
  columns: readonly string[];
  rows: readonly (readonly ReactNode[])[];
}) {
  const { caption, columns, rows } = props;
  return (
    <section aria-label={caption}>
      <h2>{caption}</h2>
      {rows.length === 0 ? (
        <p>{texts.empty}</p>
      ) : (
        <DataTable caption={caption} columns={columns} rows={rows.map((cells, key) => ({ key, cells }))} />
      )}
    </section>
  );
}

function Forget({ name, heading }: { name: string; heading: string }) {
  return (
    <ActionForm
      action={forgetHeading}
      submit={texts.forget}
      label={texts.forgetOne(heading)}
      className="staff-small"
    >
      <input type="hidden" name="name" value={name} />
      <input type="hidden" name="heading" value={heading} />
    </ActionForm>
  );
}
