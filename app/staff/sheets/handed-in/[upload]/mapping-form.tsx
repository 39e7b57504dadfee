import type { Upload } from '@/db/repositories/uploads';
import { COLUMNS, type Column, headingKey } from '@/lib/intake/columns';
import type { SheetPreview } from '@/lib/intake/preview-sheet';
import { ActionForm } from '../../../components/action-form';
import { ChoiceField, Field } from '../../../components/field';
import { columnWords, handedInTexts as texts } from '../../../messages/sheets';
import { tryUpload } from '../../actions';
import { ASIDE, headingField, lackingField } from '../../mapping-fields';
import { Keeping } from './keeping';

const OPTIONS = [
  [ASIDE, texts.aside] as const,
  ...COLUMNS.map((column) => [column, columnWords[column]] as const),
];

/** What a sheet's headings mean, and what it does not say: to look over, to change, to try. */
export function MappingForm({ upload, preview }: { upload: Upload; preview: SheetPreview }) {
  const { id, laboratory } = upload;
  return (
    <Keeping address={`/staff/sheets/handed-in/${id}/mapping`}>
      <ActionForm
        action={tryUpload}
        submit={texts.tryButton}
        label={texts.headings}
        className="staff-form staff-mapping"
      >
        <input type="hidden" name="upload" value={id} />
        <Field name="laboratory" label={texts.laboratory} value={laboratory} required />
        <p>{texts.headingsText(preview.line)}</p>
        <Wrong preview={preview} />
        <ul className="staff-headings">
          {preview.headings.map((heading, place) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: headings stay where they are, and may be alike
            <HeadingField key={place} {...heading} />
          ))}
        </ul>
        <fieldset className="staff-field">
          <legend>{texts.lackingHeading}</legend>
          <p className="staff-hint">{texts.lackingText}</p>
          <div className="staff-filter">
            {lackedBy(preview).map((column) => (
              <Field
                key={column}
                name={lackingField(column)}
                label={columnWords[column]}
                value={preview.lacking[column]}
              />
            ))}
          </div>
        </fieldset>
        <p className="quiet">{texts.tryText}</p>
      </ActionForm>
    </Keeping>
  );
}

function HeadingField({ heading, column, values }: SheetPreview['headings'][number]) {
  const key = headingKey(heading);
  return (
    <li data-known={column !== null}>
      {key === '' ? (
        <p>
          <strong>{heading || '–'}</strong> {texts.aside}
        </p>
      ) : (
        <ChoiceField
          name={headingField(key)}
          label={column === null ? `${heading} (${texts.notKnown})` : heading}
          value={column ?? ASIDE}
          options={OPTIONS}
        />
      )}
      <p className="staff-hint">{values.join(' · ')}</p>
    </li>
  );
}

function Wrong({ preview: { missing, twice } }: { preview: SheetPreview }) {
  if (missing.length + twice.length === 0) return null;
  const ways = missing.map((columns) => columns.map((column) => columnWords[column]).join(' or '));
  return (
    <div className="staff-outcome">
      {missing.length > 0 ? <p>{texts.missing(ways.join('; '))}</p> : null}
      {twice.map((column) => (
        <p key={column}>{texts.twice(columnWords[column])}</p>
      ))}
    </div>
  );
}

/** What a sheet may lack because every row would say the same. */
const OFTEN: readonly Column[] = ['state', 'design', 'assay', 'check', 'rate'];

function lackedBy({ headings, lacking, missing }: SheetPreview): Column[] {
  const has = new Set(headings.map(({ column }) => column));
  const asked = [...missing.map(([first]) => first!), ...OFTEN, ...(Object.keys(lacking) as Column[])];
  return [...new Set(asked)].filter((column) => !has.has(column));
}
