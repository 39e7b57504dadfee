import { z } from 'zod';
import { Problem } from './problem';

/** Which page of a list, and how many items it has. */
export const PAGING = {
  page: z.coerce.number().int().min(1).default(1).describe('page of the list, from 1'),
  limit: z.coerce.number().int().min(1).max(1000).default(100).describe('items of a page, 1000 at most'),
};

/**
 * The parameters of an address by a schema.
 *
 * @throws Problem 400 that names each parameter which is unknown, given twice, or wrong
 */
export function readQuery<Schema extends z.ZodObject>(
  schema: Schema,
  parameters: URLSearchParams,
): z.infer<Schema> {
  const twice = [...new Set(parameters.keys())].filter((name) => parameters.getAll(name).length > 1);
  if (twice.length > 0)
    throw wrong(
      twice.map((name) => ({ name, message: 'is given twice' })),
      schema,
    );
  // A field of a form that was left empty asks for nothing.
  const given = Object.fromEntries([...parameters].filter(([, value]) => value !== ''));
  const read = schema.strict().safeParse(given);
  if (read.success) return read.data as z.infer<Schema>;
  throw wrong(
    read.error.issues.flatMap((issue) =>
      issue.code === 'unrecognized_keys'
        ? issue.keys.map((name) => ({ name, message: 'is no parameter of this address' }))
        : [{ name: issue.path.join('.'), message: issue.message }],
    ),
    schema,
  );
}

function wrong(parameters: { name: string; message: string }[], schema: z.ZodObject): Problem {
  const known = Object.keys(schema.shape);
  const there = known.length === 0 ? 'It takes none.' : `It takes: ${known.join(', ')}.`;
  const told = parameters.map(({ name, message }) => `“${name.slice(0, 80)}”: ${message}`).join('; ');
  return new Problem(400, 'Wrong parameters', `${told}. ${there}`, parameters);
}
