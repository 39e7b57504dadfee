import { count, many } from '@/app/messages/en/format';
import type { Speed } from '@/lib/release/public-loss';

/** Texts about what findings lose by withholding. */
export const findingLossTexts = {
  heading: 'What its findings lose',
  intro:
    'Findings of a release are computed from its public cells alone. Held beside the same computations on exact counts, it is seen which clusters vanish in public, which first finds are not told, and which speeds change.',
  ask: 'Compare with exact counts',
  asked: 'The comparison was asked for. You can follow it here.',
  failed: (message: string) => `The comparison could not be made. ${message}`,
  none: 'Nobody compared its findings with exact counts while it was open.',
  storedNow:
    'What entered this release is not on record: the exact counts are those of the samples stored now.',
  ofStaff: 'For staff: what is withheld can be told from this.',
  maps: (same: number, all: number) =>
    `${count(same)} of ${many(all, 'map of clustering has', 'maps of clustering have')} the same verdict in public as by exact counts.`,
  clusters: (exact: number, told: number, added: number) =>
    exact === 0
      ? 'By exact counts, resistant populations lie together on no map.'
      : `By exact counts, resistant populations lie together on ${many(exact, 'map', 'maps')}. In public ${told === 1 ? '1 of them is' : `${told} of them are`} told${added === 0 ? '' : `, and ${many(added, 'map', 'maps')} besides`}.`,
  clusterCaption: 'Maps on which resistant populations lie together, by exact counts or in public',
  clusterColumns: ['Weed × group', 'Window', 'By exact counts', 'In public', 'Counties that lie together'],
  untold: 'not told',
  counties: ({ exact, released, shared }: { exact: number; released: number; shared: number }) =>
    exact + released === 0
      ? 'none is named'
      : `${count(exact)}; public names ${count(shared)} of them${released > shared ? ` and ${many(released - shared, 'other', 'others')}` : ''}`,
  finds: (where: string, all: number, kept: number, moved: number, vanished: number) =>
    `Of ${many(all, 'first find', 'first finds')} by ${where}, ${count(kept)} are told of that ${where}, ${count(moved)} at another time, and ${count(vanished)} not at all.`,
  county: 'county',
  district: 'district',
  byDistrict: (finds: number) => `${many(finds, 'is', 'are')} told of the county’s district alone.`,
  findCaption: 'First finds by county',
  findColumns: [
    'Weed × group',
    'By exact counts',
    'Told of the county',
    'At another time',
    'Of its district alone',
    'Not at all',
  ],
  noSpeed: 'No speed is told, in public or by exact counts.',
  speedCaption: 'Speeds of spread, km a season with 95 % interval',
  speedColumns: ['Weed × group', 'By exact counts', 'In public', 'Whether they agree'],
  speed: (told: Speed | null) =>
    told === null
      ? 'not told'
      : `${Math.round(told.speed)} (${Math.round(told.low)}–${Math.round(told.high)})`,
  agree: (agree: boolean | null) =>
    agree === null ? '–' : agree ? 'their intervals have a speed in common' : 'no',
} as const;
