import type { CaseDefinition, Screening } from '@/lib/vocabulary/case-definition';
import { poolRuns } from '@/lib/vocabulary/pool-runs';
import type { Judged } from './judged';
import { asks, type Reading, read, refuses } from './reading';

/** Two points of one field are at most this far apart (own rule). */
const SAME_FIELD_METRES = 150;

/**
 * Finds rows that repeat an earlier one of the same sheet. Same sample, species, group and rate: refused when all is the
 * same, else in question. Two numbers for one field of an operation in one season: in question. An active names the test
 * more closely than its group: two actives are two tests. Remembers a short list for each population.
 */
export function createRepeatFinder(definition: CaseDefinition): (row: Judged) => Reading<true> {
  const populations = new Map<string, Seen[]>();
  const fields = new Map<string, Field[]>();

  return (row) => {
    if (row.sample === null || row.species === null || row.group === null) return read(true);
    const key = join(row.sample.toUpperCase(), row.species);
    const earlier = populations.get(key) ?? [];
    const seen = seenOf(row);
    const same = earlier.find((one) => one.test === seen.test && sameActives(one.actives, seen.actives));
    if (same) return same.data === seen.data ? duplicate(row, same) : differs(row, same, definition);
    populations.set(key, [...earlier, seen]);

    const neighbour = nearField(fields, row);
    if (neighbour) return sameField(row, neighbour);
    return earlier.length > 0 ? read(true, 'SAME_SAMPLE_OTHER_GROUP') : read(true);
  };
}

interface Seen {
  record: number;
  /** Group, rate and assay. */
  test: string;
  actives: string;
  treated: number | null;
  alive: number | null;
  /** Hash of all that the row says, for telling a copy from another account. */
  data: number;
}

interface Field {
  record: number;
  sample: string;
  lat: number;
  lon: number;
}

function seenOf(row: Judged): Seen {
  const { record, group, rateMultiple, assay, treated, alive } = row;
  const test = join(group, rateMultiple, assay);
  return { record, test, actives: row.actives.join('+'), treated, alive, data: dataOf(row) };
}

function sameActives(a: string, b: string): boolean {
  return a === b || a === '' || b === '';
}

function duplicate({ sample }: Judged, { record }: Seen): Reading<true> {
  const reason = `Sample ${sample} stands in record ${record} already, with the same species, group, rate and data.`;
  return refuses('sample', 'DUPLICATE', reason, 'Nothing to do: it counts once.');
}

function differs(row: Judged, same: Seen, definition: CaseDefinition): Reading<true> {
  const [there, here] = [screeningOf({ ...row, ...same }), screeningOf(row)];
  let reason = `Sample ${row.sample} stands in record ${same.record} already with the same species, group and rate, but other data`;
  let remedy = 'Is it a second run, or is one of the two wrong?';
  if (there && here && shown(there) !== shown(here)) {
    reason += `: ${shown(there)} alive there, ${shown(here)} here`;
    const pooled = poolRuns(definition, [there, here]);
    remedy +=
      pooled.kind === 'pooled'
        ? ` As two runs they make ${shown(pooled)}: ${pooled.result}.`
        : ` As two runs they differ: ${pooled.results.join(' and ')}.`;
  }
  return asks('sample', 'DUPLICATE_CONFLICT', `${reason}.`, remedy);
}

function sameField({ sample }: Judged, other: Field): Reading<true> {
  const reason = `Sample ${sample} comes from the same operation, species, group and season as sample ${other.sample} (record ${other.record}), and from within ${SAME_FIELD_METRES} m of it.`;
  return asks('sample', 'SAME_FIELD', reason, 'Is it the same field twice, or two fields?');
}

/** The earlier field of another sample number that is so near; the row's own point is remembered. */
function nearField(fields: Map<string, Field[]>, row: Judged): Field | null {
  const { operation, sample, season, record, lat, lon } = row;
  if (operation === null || sample === null || season === null || lat === null || lon === null) return null;
  const key = join(operation, row.species, row.group, row.rateMultiple, season);
  const others = fields.get(key) ?? [];
  const near = others.find(
    (other) => other.sample !== sample && metres(other, { lat, lon }) <= SAME_FIELD_METRES,
  );
  fields.set(key, [...others, { record, sample, lat, lon }]);
  return near ?? null;
}

/** Distance on a sphere of 6,371,009 m; a plane is exact enough over a field. */
function metres(a: { lat: number; lon: number }, b: { lat: number; lon: number }): number {
  const radians = Math.PI / 180;
  const east = (b.lon - a.lon) * radians * Math.cos(a.lat * radians);
  return Math.hypot(east, (b.lat - a.lat) * radians) * 6_371_009;
}

type Counted = Pick<Judged, 'assay' | 'rateMultiple' | 'treated' | 'alive'>;

function screeningOf({ assay, rateMultiple, treated, alive }: Counted): Screening | null {
  if (assay === null || alive === null || !treated) return null;
  return { assay, rateMultiple, treated, alive };
}

function dataOf(r: Judged): number {
  const place = [r.county, r.lat, r.lon];
  const dates = [r.collected, r.received];
  return hash(join(r.treated, r.alive, ...place, ...dates, r.operation, r.crop, r.design, r.publicShare));
}

/** 52 bits from two FNV-1a hashes with different starts (Fowler, Noll and Vo; public domain, from memory). */
function hash(text: string): number {
  let [high, low] = [0x811c9dc5, 0x9747b28c];
  for (let i = 0; i < text.length; i++) {
    high = Math.imul(high ^ text.charCodeAt(i), 0x01000193);
    low = Math.imul(low ^ text.charCodeAt(i), 0x01000193);
  }
  return (high >>> 6) * 0x4000000 + (low >>> 6);
}

function shown({ treated, alive }: { treated: number; alive: number }): string {
  return `${alive} of ${treated}`;
}

function join(...parts: unknown[]): string {
  return parts.join('\u001f');
}
