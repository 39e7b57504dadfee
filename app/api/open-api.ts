import { z } from 'zod';
import type { Endpoint } from './endpoint';
import { PROBLEM } from './schemas';

/** The interface as OpenAPI 3.1, made of the schemas that check what is asked. */
export function openApi(endpoints: readonly Endpoint[]): object {
  return {
    openapi: '3.1.0',
    info: {
      title: 'Public results of herbicide-resistance screening',
      version: '1',
      summary: 'Released counts and findings; small counts are withheld to protect growers.',
      description:
        'Everything here is read from published releases, and nothing else is. Results describe the seed received; counts of submitted samples are not the share of all fields; none found is not none there. Recommends no product and no rate.',
      license: { name: 'As each release says', identifier: 'LicenseRef-as-each-release-says' },
    },
    servers: [{ url: '/api/v1' }],
    tags: [{ name: 'released', description: 'Releases, their places, counts, findings and files' }],
    security: [],
    paths: Object.fromEntries(endpoints.map((endpoint) => [endpoint.path, { get: operation(endpoint) }])),
    components: { schemas: { Problem: schemaOf(PROBLEM) } },
  };
}

function operation({ name, path, summary, item, query, csv, list }: Endpoint): object {
  const isOfRelease = path.includes('{release}');
  const answer = list ? listOf(item, isOfRelease) : item;
  return {
    operationId: name,
    tags: ['released'],
    summary,
    parameters: [
      ...(isOfRelease
        ? [
            {
              ...{ name: 'release', in: 'path', required: true },
              description: 'number of a release, or “latest”',
              schema: { type: 'string', pattern: '^([1-9][0-9]*|latest)$' },
            },
          ]
        : []),
      ...Object.entries(query).map(([parameter, schema]) => {
        const { description, ...own } = schemaOf(schema, 'input') as { description?: string };
        return {
          name: parameter,
          in: 'query',
          required: false,
          ...(description && { description }),
          schema: own,
        };
      }),
    ],
    responses: {
      200: {
        description: summary,
        headers: {
          ETag: { description: 'strong; send it back as If-None-Match', schema: { type: 'string' } },
        },
        content: {
          'application/json': { schema: schemaOf(answer) },
          ...(csv && { 'text/csv': { schema: { type: 'string' } } }),
        },
      },
      304: { description: 'nothing has changed since the ETag that was sent' },
      ...Object.fromEntries(
        [
          [400, 'a parameter is unknown or wrong'],
          [404, 'no such release, or a page past the end'],
          [406, 'a media type that there is not'],
          ...(isOfRelease ? [[410, 'the release was withdrawn; its reason is told']] : []),
        ].map(([status, description]) => [
          status,
          {
            description,
            content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
          },
        ]),
      ),
    },
  };
}

function listOf(item: z.ZodType, isOfRelease: boolean): z.ZodType {
  return z.object({
    ...(isOfRelease && { release: z.int() }),
    total: z.int().describe('items on all pages'),
    page: z.int(),
    pages: z.int(),
    limit: z.int(),
    items: z.array(item),
  });
}

function schemaOf(schema: z.ZodType, io: 'input' | 'output' = 'output'): object {
  const { $schema, ...own } = z.toJSONSchema(schema, { io, unrepresentable: 'any' }) as { $schema?: string };
  return own;
}
