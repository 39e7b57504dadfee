import { type BasicType, ByteWriter, parquetWrite } from 'hyparquet-writer';
import type { Field, Table, Value } from './field';

/** Lines in a row group: what a reader must hold at once. */
const ROWS_IN_GROUP = 50_000;

/** A table as Parquet (Snappy): whole numbers as INT32, shares as DOUBLE, yes or no as BOOLEAN, empty as null. */
export function parquetBytes({ fields, rows }: Table, about: Readonly<Record<string, string>>): Uint8Array {
  const writer = new ByteWriter();
  parquetWrite({
    writer,
    columnData: fields.map((field, i) => ({
      name: field.name,
      type: TYPES[field.type],
      nullable: !field.required,
      data: rows.map((row) => read(field, row[i]!)),
    })),
    rowGroupSize: ROWS_IN_GROUP,
    kvMetadata: Object.entries(about).map(([key, value]) => ({ key, value })),
  });
  return writer.getBytes();
}

const TYPES: Record<Field['type'], BasicType> = {
  integer: 'INT32',
  number: 'DOUBLE',
  string: 'STRING',
  'yes or no': 'BOOLEAN',
};

function read({ type }: Field, value: Value): Value | boolean {
  return type === 'yes or no' && value !== null ? value === 'yes' : value;
}
