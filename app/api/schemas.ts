import { z } from 'zod';
import { COLUMNS } from '@/lib/release/columns';
import type { Field } from '@/lib/release/files/field';

/** Schemas of what is asked and answered, from the same columns as every file of a release. */

export const CELL = z.object(
  Object.fromEntries(COLUMNS.map((field) => [field.name, schemaOf(field).describe(field.meaning)])),
);

/** Columns by which lines can be chosen: those that say what a line is of, not what was counted. */
const FILTERS = [
  ...['species', 'group', 'place_kind', 'place', 'state', 'district', 'first_season', 'last_season'],
  ...['assay', 'design', 'status', 'unfinished'],
];

export const cellFilters = Object.fromEntries(
  COLUMNS.filter(({ name }) => FILTERS.includes(name)).map((field) => [
    field.name,
    filterOf(field).optional().describe(field.meaning),
  ]),
);

const ERRATUM = z.object({
  erratum: z.int(),
  date: z.iso.date(),
  text: z.string(),
  file: z.string(),
  sha256: z.string(),
});

export const RELEASE = z.object({
  release: z.int(),
  date: z.iso.date(),
  note: z.string(),
  standing: z.boolean(),
  withdrawn: z.object({ at: z.iso.datetime(), note: z.string() }).nullable(),
  errata: z.array(ERRATUM),
});

const PERIOD = z.object({ first: z.int(), last: z.int() });

/** What the files of a release say of it as a whole: nothing that stands in none of them is answered. */
export const RELEASE_HEAD = z.object({
  number: z.int(),
  date: z.iso.date(),
  programme: z.string(),
  region: z.string(),
  states: z.array(z.string()),
  simulated: z.boolean().describe('true where the data are invented for a demonstration'),
  note: z.string(),
  licence: z
    .string()
    .nullish()
    .describe('SPDX identifier of the licence that the programme chose; null: none'),
  policy: z.looseObject({ version: z.string() }).describe('by which small counts are withheld'),
  caseDefinition: z.object({ version: z.string(), words: z.string() }),
  tests: z
    .object({ seed: z.int(), permutations: z.int() })
    .optional()
    .describe('with which the findings can be computed again'),
  closedSeasons: z.array(z.int()),
  openSeason: z.int().nullable(),
  windows: z.array(PERIOD),
  seasonTables: z
    .array(z.object({ placeKind: z.string(), species: z.string(), group: z.int(), first: z.int() }))
    .describe('where districts or counties are shown season by season, by the first season of the window'),
  areas: z
    .array(z.object({ species: z.string(), first: z.int(), areas: z.array(z.array(z.string())) }))
    .describe('counties counted together, by the first season of the window'),
  furtherTables: z.array(z.string()).optional(),
  pairs: z.array(z.object({ species: z.string(), group: z.int() })),
  files: z.array(z.object({ name: z.string(), mediaType: z.string(), bytes: z.int(), sha256: z.string() })),
});

export const STATE = z.object({ state: z.string(), fips: z.string(), name: z.string() });

export const PLACE = z.object({
  place_kind: z.enum(['region', 'state', 'district', 'county']),
  place: z.string(),
  name: z.string(),
  state: z.string().nullable(),
  district: z.string().nullable(),
});

export const SPECIES = z.object({
  species: z.string().describe('EPPO code'),
  name: z.string(),
  scientific_name: z.string().nullable(),
  groups: z.array(z.int()),
});

export const GROUP = z.object({ group: z.int(), name: z.string() });

export const FINDING = z.looseObject({
  kind: z.string(),
  species: z.string(),
  group: z.int(),
  sentence: z.string().describe('what was found, with its uncertainty, or why nothing can be said'),
});

export const FILE = z.object({
  name: z.string(),
  media_type: z.string(),
  bytes: z.int(),
  sha256: z.string(),
  address: z.string(),
});

export const PROBLEM = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string(),
  instance: z.string(),
  parameters: z.array(z.object({ name: z.string(), message: z.string() })).optional(),
});

function schemaOf({ type, values, required, minimum, maximum }: Field): z.ZodType {
  const bounded = (number: z.ZodNumber) => {
    const low = minimum === undefined ? number : number.min(minimum);
    return maximum === undefined ? low : low.max(maximum);
  };
  const schema =
    type === 'integer'
      ? bounded(z.int())
      : type === 'number'
        ? bounded(z.number())
        : type === 'yes or no'
          ? z.enum(['yes', 'no'])
          : values
            ? z.enum(values as [string, ...string[]])
            : z.string();
  return required ? schema : schema.nullable();
}

function filterOf({ type, values }: Field): z.ZodType {
  if (type === 'integer') return z.coerce.number().int();
  if (type === 'yes or no') return z.enum(['yes', 'no']);
  if (values) return z.enum(values as [string, ...string[]]);
  return z.string();
}
