import { z } from 'zod';
import type { SheetMapping } from '@/db/repositories/uploads';
import { COLUMNS, type Column } from '@/lib/intake/columns';
import { handedInTexts as texts } from '../messages/sheets';

/** How the fields of the form are named: by what a heading is remembered by, and by the column that is lacking. */
export const headingField = (key: string) => `heading:${key}`;
export const lackingField = (column: Column) => `lacking:${column}`;
/** A heading that is left aside. */
export const ASIDE = '-';

const COLUMN = z.enum(COLUMNS);
const MOST_HEADINGS = 500;

/** The form by which a person says what a sheet's headings mean. */
export const mappingForm = z
  .looseObject({
    upload: z.uuid(),
    laboratory: z.string().trim().min(1, texts.noLaboratory).max(200, texts.tooLong),
  })
  .transform(({ upload, laboratory, ...fields }) => ({ upload, laboratory, mapping: readMapping(fields) }));

function readMapping(fields: Record<string, unknown>): SheetMapping {
  const mapping: SheetMapping = { headings: {}, lacking: {} };
  for (const [name, value] of Object.entries(fields).slice(0, MOST_HEADINGS)) {
    const [kind, ...rest] = name.split(':');
    const key = rest.join(':').slice(0, 200);
    if (typeof value !== 'string' || key === '') continue;
    if (kind === 'heading') {
      const column = COLUMN.safeParse(value).data;
      if (column || value === ASIDE) mapping.headings[key] = column ?? null;
    }
    const lacked = kind === 'lacking' ? COLUMN.safeParse(key).data : undefined;
    if (lacked && value.trim() !== '') mapping.lacking[lacked] = value.trim().slice(0, 200);
  }
  return mapping;
}
