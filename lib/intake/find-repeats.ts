import type { CaseDefinition, Screening } from '@/lib/vocabulary/case-definition';
import { poolRuns } from '@/lib/vocabulary/pool-runs';
import type { Judged } from './judged';
import { asks, type Reading, read, refuses } from './reading';

/** Two points of one field are at most this far apart (own rule). */
const SAME_FIELD_METRES = 150;

/**
 * Finds rows that repeat an earlier one of the same sheet. Same sample, species, group and rate: refused when all is the
 * same, else in question. Two numbers for one field of an operation in one season: in question. Remembers keys and
 * points only. An active names the test more closely than its group: two actives are two tests.
 */
export function createRepeatFinder(definition: CaseDefinition): (row: Judged) => Reading<true> {
  const tests = new Map<string, Seen[]>();
  const samples = new Set<string>();
  const fields = new Map<string, Field[]>();

  return (row) => {
    const { sample, species, group, record } = row;
    if (sample === null || species === null || group === null) return read(true);
    const key = join(sample.toUpperCase(), species, group, row.rateMultiple, row.assay);
    const seen: Seen = { record, actives: row.actives.join('+'), data: dataOf(row), counts: countsOf(row) };
    const earlier = tests.get(key) ?? [];
    const same = earlier.find(
      (one) => one.actives === seen.actives || one.actives === '' || seen.actives === '',
    );
    if (same) return same.data === seen.data ? duplicate(row, same) : differs(row, same, definition);
    tests.set(key, [...earlier, seen]);

    const neighbour = nearField(fields, row);
    if (neighbour) return sameField(row, neighbour);
    const name = join(sample.toUpperCase(), species);
    const flags = samples.has(name) ? ['SAME_SAMPLE_OTHER_GROUP'] : [];
    samples.add(name);
    return read(true, ...flags);
  };
}

interface Seen {
  record: number;
  actives: string;
  /** All that the row says, for telling a copy from another account. */
  data: string;
  counts: Screening | null;
}

interface Field {
  record: number;
  sample: string;
  lat: number;
  lon: number;
}

function duplicate({ sample }: Judged, { record }: Seen): Reading<true> {
  const reason = `Sample ${sample} stands in record ${record} already, with the same species, group, rate and data.`;
  return refuses('sample', 'DUPLICATE', reason, 'Nothing to do: it counts once.');
}

function differs(row: Judged, same: Seen, definition: CaseDefinition): Reading<true> {
  const counts = countsOf(row);
  let reason = `Sample ${row.sample} stands in record ${same.record} already with the same species, group and rate, but other data`;
  let remedy = 'Is it a second run, or is one of the two wrong?';
  if (
    counts &&
    same.counts &&
    (counts.alive !== same.counts.alive || counts.treated !== same.counts.treated)
  ) {
    reason += `: ${shown(same.counts)} alive there, ${shown(counts)} here`;
    const pooled = poolRuns(definition, [same.counts, counts]);
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

function nearField(fields: Map<string, Field[]>, row: Judged): Field | null {
  const { operation, sample, lat, lon } = row;
  if (operation === null || sample === null || lat === null || lon === null || row.season === null)
    return null;
  const key = join(operation, row.species, row.group, row.rateMultiple, row.season);
  const others = fields.get(key) ?? [];
  const near = others.find(
    (other) => other.sample !== sample && metres(other, { lat, lon }) <= SAME_FIELD_METRES,
  );
  fields.set(key, [...others, { record: row.record, sample, lat, lon }]);
  return near ?? null;
}

/** Distance on a sphere of 6,371,009 m; a plane is exact enough over a field. */
function metres(a: { lat: number; lon: number }, b: { lat: number; lon: number }): number {
  const radians = Math.PI / 180;
  const east = (b.lon - a.lon) * radians * Math.cos(a.lat * radians);
  return Math.hypot(east, (b.lat - a.lat) * radians) * 6_371_009;
}

function countsOf({ assay, rateMultiple, treated, alive }: Judged): Screening | null {
  return assay === null || treated === null || alive === null || treated === 0
    ? null
    : { assay, rateMultiple, treated, alive };
}

function dataOf(r: Judged): string {
  const place = [r.county, r.lat, r.lon];
  const dates = [r.collected, r.received];
  return join(r.treated, r.alive, ...place, ...dates, r.operation, r.crop, r.design, r.publicShare);
}

function shown({ treated, alive }: { treated: number; alive: number }): string {
  return `${alive} of ${treated}`;
}

function join(...parts: unknown[]): string {
  return parts.join('\u001f');
}
