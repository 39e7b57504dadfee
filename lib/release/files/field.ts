/** A column of a table of a release, as the code book and every descriptor tell it. */
export interface Field {
  name: string;
  /** One line: meaning, unit, range. */
  meaning: string;
  type: 'integer' | 'number' | 'string' | 'yes or no';
  /** All values that it can take, where they are few. */
  values?: readonly string[];
  /** True where no line leaves it empty. */
  required?: boolean;
  minimum?: number;
  maximum?: number;
}

export type Value = string | number | null;

/** A table of a release: what each of its files in another format is made from. Empty texts stand as null. */
export interface Table {
  /** Last part of its files' names. */
  name: string;
  title: string;
  fields: readonly Field[];
  /** Names of the fields that tell lines apart. */
  key: readonly string[];
  rows: readonly (readonly Value[])[];
}

/** Of a column's values what files hold: an empty text and null are the same, in every format. */
export function orNull(value: Value): Value {
  return value === '' ? null : value;
}
