import { z } from 'zod';
import { findings, listReleases } from '@/db/repositories/published';
import { COLUMNS } from '@/lib/release/columns';
import { releaseList } from '@/lib/release/release-list';
import { placesOf } from '@/lib/release/table-rows';
import { groupName } from '@/lib/vocabulary/groups';
import { commonNameOf, species as speciesOf } from '@/lib/vocabulary/species';
import { cellRows } from './cell-rows';
import type { Endpoint } from './endpoint';
import { PAGING } from './read-query';
import {
  CELL,
  cellFilters,
  FILE,
  FINDING,
  GROUP,
  PLACE,
  RELEASE,
  RELEASE_HEAD,
  SPECIES,
  STATE,
} from './schemas';

const pairFilters = {
  species: z.string().optional().describe('EPPO code, as KCHSC'),
  group: z.coerce.number().int().min(0).optional().describe('number of the site-of-action group'),
};

/** Routes, checks, the page to try them and the OpenAPI description are made of this list. */
const ASKED: readonly Endpoint[] = [
  {
    name: 'releases',
    path: '/releases',
    summary: 'All releases, newest first; withdrawn ones stay as tombstones with their reason',
    item: RELEASE,
    query: {},
    list: async ({ db }) => releaseList(await listReleases(db)) as Record<string, unknown>[],
  },
  {
    name: 'release',
    path: '/releases/{release}',
    summary: 'One release: programme, policy, case definition, seasons, windows, areas, files',
    item: RELEASE_HEAD,
    query: {},
    one: async ({ head }) => RELEASE_HEAD.parse(head),
  },
  {
    name: 'regions',
    path: '/releases/{release}/regions',
    summary: 'The states that the region of a release is made of',
    item: STATE,
    query: {},
    list: async ({ region }) => region!.states.map(({ code, fips, name }) => ({ state: code, fips, name })),
  },
  {
    name: 'places',
    path: '/releases/{release}/places',
    summary: 'Region, states, districts and counties of a release',
    item: PLACE,
    query: {
      place_kind: z.enum(['region', 'state', 'district', 'county']).optional(),
      state: z.string().optional().describe('postal abbreviation, as NE'),
    },
    csv: ['place_kind', 'place', 'name', 'state', 'district'],
    list: async ({ region }, query) =>
      placesOf(region!)
        .map(({ placeKind, place, placeName, state, district }) => ({
          place_kind: placeKind,
          place,
          name: placeName,
          state: state || null,
          district: district || null,
        }))
        .filter(fits(query)),
  },
  {
    name: 'species',
    path: '/releases/{release}/species',
    summary: 'Weeds that were screened',
    item: SPECIES,
    query: {},
    list: async ({ head }) =>
      [...new Set(head!.pairs.map(({ species }) => species))].map((code) => ({
        species: code,
        name: commonNameOf(code),
        scientific_name: speciesOf(code)?.scientificName ?? null,
        groups: head!.pairs.filter(({ species }) => species === code).map(({ group }) => group),
      })),
  },
  {
    name: 'groups',
    path: '/releases/{release}/groups',
    summary: 'Site-of-action groups that weeds were screened for',
    item: GROUP,
    query: {},
    list: async ({ head }) =>
      [...new Set(head!.pairs.map(({ group }) => group))]
        .sort((a, b) => a - b)
        .map((group) => ({ group, name: groupName(group) })),
  },
  {
    name: 'cells',
    path: '/releases/{release}/cells',
    summary:
      'The public counts, a line for each place, period, species and group: published, withheld and not screened are three things',
    item: CELL,
    query: cellFilters,
    csv: COLUMNS.map(({ name }) => name),
    list: async (context, query) => {
      const pairs = context.head!.pairs.filter(fits(only(query, ['species', 'group'])));
      const rows = [];
      for (const pair of pairs) rows.push(...(await cellRows(context, pair)));
      return rows.filter(fits(query));
    },
  },
  {
    name: 'findings',
    path: '/releases/{release}/findings',
    summary: 'What was concluded from the public counts of this release alone, each with its sentence',
    item: FINDING,
    query: {
      ...pairFilters,
      kind: z
        .enum(['clustering', 'first detection', 'matched change', 'trend', 'speed'])
        .optional()
        .describe('what the finding is about'),
    },
    list: async ({ db, head }, query) => {
      const pairs = head!.pairs.filter(fits(only(query, ['species', 'group'])));
      const found = [];
      for (const pair of pairs) found.push(...(await findings(db, head!.number, pair)));
      return found.map((one) => ({ ...one })).filter(fits(only(query, ['kind'])));
    },
  },
  {
    name: 'files',
    path: '/releases/{release}/files',
    summary: 'Files of a release, with their size and SHA-256',
    item: FILE,
    query: {},
    list: async ({ head }) =>
      head!.files.map(({ name, mediaType, bytes, sha256 }) => ({
        ...{ name, bytes, sha256 },
        media_type: mediaType,
        address: `/releases/${head!.number}/${name}`,
      })),
  },
];

/** Everything that can be asked, below `/api/v1`: lists also take a page and how long it is. */
export const ENDPOINTS: readonly Endpoint[] = ASKED.map((endpoint) =>
  endpoint.list ? { ...endpoint, query: { ...endpoint.query, ...PAGING } } : endpoint,
);

/** Whether an item has the value of each filter that is given. */
function fits(query: Record<string, unknown>): (item: object) => boolean {
  const filters = Object.entries(query).filter(
    ([name, value]) => value !== undefined && name !== 'page' && name !== 'limit',
  );
  return (item) => filters.every(([name, value]) => (item as Record<string, unknown>)[name] === value);
}

function only(query: Record<string, unknown>, names: readonly string[]): Record<string, unknown> {
  return Object.fromEntries(names.map((name) => [name, query[name]]));
}
