import type { ZodType } from 'zod';
import { z } from 'zod';
import { staff } from '../messages/en';
import type { Outcome } from './outcome';

type Entry = string | File;

/** What a form holds, by name; a name that comes several times is a list. The framework's own fields are left out. */
export function readForm(form: FormData): Record<string, Entry | Entry[]> {
  const read: Record<string, Entry | Entry[]> = {};
  for (const name of new Set(form.keys())) {
    if (name.startsWith('$ACTION')) continue;
    const all = form.getAll(name) as Entry[];
    read[name] = all.length > 1 ? all : all[0]!;
  }
  return read;
}

/** What was entered, to stand in the form again: texts only, and no passwords or codes. */
export function enteredValues(form: FormData): Record<string, string | string[]> {
  return Object.fromEntries(
    Object.entries(readForm(form))
      .filter(([name]) => !/password|code|token/i.test(name))
      .map(([name, value]) => [name, [value].flat().filter((one) => typeof one === 'string')] as const)
      .map(([name, values]) => [name, values.length === 1 ? values[0]! : values]),
  );
}

/** A form's fields by a schema, or what is wrong with them. */
export function parseForm<S extends ZodType>(
  schema: S,
  form: FormData,
): { input: z.output<S> } | { wrong: Outcome } {
  const parsed = schema.safeParse(readForm(form));
  if (parsed.success) return { input: parsed.data };
  const fields: Record<string, string> = {};
  for (const { path, message } of parsed.error.issues) fields[String(path[0] ?? '')] ??= message;
  return { wrong: { state: 'invalid', message: staff.form.invalid, fields, values: enteredValues(form) } };
}

/** A list of which a form may send none, one or several. */
export function several<S extends ZodType>(one: S) {
  return z.preprocess((value) => (value === undefined || value === '' ? [] : [value].flat()), z.array(one));
}
