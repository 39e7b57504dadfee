import { z } from 'zod';
import {
  RESULT_ORDERS,
  type ResultFilter,
  type ResultOrder,
  type ResultPlace,
} from '@/db/repositories/results';
import { activeNamed } from '@/lib/vocabulary/herbicide-index';
import { ASSAYS, DESIGNS } from '@/lib/vocabulary/terms';
import { COLUMN_NAMES, type ResultColumnName, USUAL_COLUMNS } from './columns';

/** What the address of the results table asks for. */
export interface ResultView {
  filter: ResultFilter;
  order: ResultOrder;
  columns: readonly ResultColumnName[];
  after: ResultPlace | null;
}

type Words = Record<string, string | string[] | undefined>;

/** Results and kinds of test stand in one list for whoever looks. */
export const STATUSES = [
  ...(['resistant', 'some survivors', 'susceptible', 'inconclusive'] as const),
  ...(['not testable', 'void run'] as const),
];

const word = z.string().trim().min(1).max(100).optional().catch(undefined);
const whole = (least: number, most: number) =>
  z.coerce.number().int().min(least).max(most).optional().catch(undefined);
const year = z.preprocess((value) => value || undefined, whole(1900, 2200));

const SCHEMA = z.object({
  species: word,
  group: z.preprocess((value) => value || undefined, whole(0, 99)),
  active: word,
  first: year,
  last: year,
  place: z
    .string()
    .regex(/^(\d{2}|\d{5})$/)
    .optional()
    .catch(undefined),
  status: z.enum(STATUSES).optional().catch(undefined),
  laboratory: word,
  sheet: z.preprocess((value) => value || undefined, whole(1, 2_000_000_000)),
  design: z
    .enum(DESIGNS as ['submitted'])
    .optional()
    .catch(undefined),
  assay: z
    .enum(ASSAYS as ['whole plant'])
    .optional()
    .catch(undefined),
  crop: word,
  funder: word,
  sample: word,
  order: z.enum(RESULT_ORDERS).catch('newest'),
  column: z
    .preprocess((value) => [value].flat().filter(Boolean), z.array(z.enum(COLUMN_NAMES as ['sample'])))
    .catch([]),
  after: word,
});

/** The view that an address asks for; what is no value of its kind is left out. */
export function readView(search: Words): ResultView {
  const { status, place, sheet, active, order, column, after, ...same } = SCHEMA.parse(search);
  const isKind = status === 'not testable' || status === 'void run';
  const filter = {
    ...same,
    active: active && (activeNamed(active) ?? active),
    ...(isKind ? { kind: status } : { result: status }),
    ...(place?.length === 2 ? { stateFips: place } : { county: place }),
    sheetId: sheet,
  };
  return {
    filter: Object.fromEntries(Object.entries(filter).filter(([, value]) => value !== undefined)),
    order,
    columns:
      column.length > 0 ? COLUMN_NAMES.filter((name) => column.includes(name as 'sample')) : USUAL_COLUMNS,
    after: readPlace(after),
  };
}

/** What an address holds of a view: the fields of the form, without the place of the page. */
export function fieldsOf({ filter, order, columns }: ResultView): [string, string][] {
  const { kind, result, stateFips, county, sheetId, ...same } = filter;
  const fields = { ...same, status: result ?? kind, place: county ?? stateFips, sheet: sheetId };
  const chosen = columns === USUAL_COLUMNS ? [] : columns.map((name) => ['column', name] as [string, string]);
  return [
    ...Object.entries(fields).flatMap(([name, value]) =>
      value === undefined ? [] : [[name, String(value)] as [string, string]],
    ),
    ...(order === 'newest' ? [] : [['order', order] as [string, string]]),
    ...chosen,
  ];
}

/** The part of the address behind the question mark. */
export function queryOf(view: ResultView): string {
  const { after } = view;
  const place = after ? [['after', JSON.stringify([after.by, after.population, after.key])]] : [];
  return new URLSearchParams([...fieldsOf(view), ...place]).toString();
}

const PLACE = z.tuple([z.string().max(100), z.number().int().min(0), z.uuid()]);

function readPlace(text: string | undefined): ResultPlace | null {
  try {
    const [by, population, key] = PLACE.parse(JSON.parse(text ?? ''));
    return { by, population, key };
  } catch {
    return null;
  }
}
