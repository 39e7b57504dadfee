import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { deriveResult } from './confirmation/derive-result';
import { createHashChains, createNumberRows, type Hash, hashOf } from './hash-chains';
import type { Judged } from './judged';
import { doubts, type Reading, read, refuses } from './reading';
import { isSameField, SAME_FIELD_METRES } from './same-field';

/**
 * Finds rows that repeat an earlier one of the same sheet. Same sample, species, group, rate, run and replicate: refused
 * when all is the same, else in question. One number for two places, two numbers for one field of an operation in one
 * season, or for one bag: in question. An active names the test more closely than its group: two actives are two tests.
 * Remembers about 200 bytes a row, in numbers alone.
 */
export function createRepeatFinder(definition: CaseDefinition): (row: Judged) => Reading<true> {
  const samples = createSamples();
  const tests = createTests();
  const fields = createFields();
  const bags = createBags();

  return (row) => {
    if (row.sample === null || row.species === null || row.group === null || row.details.check) return FINE;
    const same = tests.findOrAdd(row);
    if (same) return same.isCopy ? duplicate(row, same) : differs(row, same, definition);
    const sample = samples.findOrAdd(row);
    if (sample.differs) return sampleDiffers(row, sample);
    const field = fields.findOrAdd(row);
    if (field !== null) return sameField(row, field);
    const bag = bags.findOrAdd(row);
    if (bag !== null) return sameBag(row, bag);
    return sample.record === row.record ? FINE : OTHER_GROUP;
  };
}

const FINE: Reading<true> = read(true);
const OTHER_GROUP: Reading<true> = read(true, 'SAME_SAMPLE_OTHER_GROUP');

/** Entries that there is room for at first. */
const ROOM = 1024;

interface Seen {
  record: number;
  treated: number | null;
  alive: number | null;
  /** Whether it says all that the row says. */
  isCopy: boolean;
}

/** Tests by what they are about. */
function createTests() {
  const chains = createHashChains();
  // For each entry: record, treated + 1, alive + 1 (0 = none).
  const numbers = createNumberRows(3, new Int32Array(3 * ROOM));
  // For each entry: actives (0 = the group alone), and the two halves of all that it says.
  const hashes = createNumberRows(3, new Uint32Array(3 * ROOM));
  return {
    findOrAdd(row: Judged): Seen | null {
      const { sample, species, group, rateMultiple, assay, run, replicate } = row;
      const key = hashOf(sample!.toUpperCase(), species, group, rateMultiple, assay, run, replicate);
      const actives = row.actives.length === 0 ? 0 : hashOf(...row.actives).low || 1;
      const says = hashOfAll(row);
      for (let entry = chains.last(key); entry >= 0; entry = chains.before(entry)) {
        const theirs = hashes.at(entry, 0);
        if (theirs !== actives && theirs !== 0 && actives !== 0) continue;
        return {
          record: numbers.at(entry, 0),
          treated: countOf(numbers.at(entry, 1)),
          alive: countOf(numbers.at(entry, 2)),
          isCopy: hashes.at(entry, 1) === says.high && hashes.at(entry, 2) === says.low,
        };
      }
      const entry = chains.add(key);
      numbers.set(entry, row.record, (row.treated ?? -1) + 1, (row.alive ?? -1) + 1);
      hashes.set(entry, actives, says.high, says.low);
      return null;
    },
  };
}

function countOf(stored: number): number | null {
  return stored === 0 ? null : stored - 1;
}

/** The hash of all that a row says of its test. */
// biome-ignore format: one line is read more easily
function hashOfAll(r: Judged): Hash {
  return hashOf(
    r.treated, r.alive, r.details.stated, r.county, r.lat, r.lon, r.collected, r.received, r.operation, r.crop, r.design,
    r.publicShare,
  );
}

interface Sample {
  /** The first record of the population. */
  record: number;
  differs: 'county' | 'operation' | null;
}

/** Where the samples came from. */
function createSamples() {
  const chains = createHashChains();
  // For each entry: record, county and hash of the operation (0 = not known).
  const numbers = createNumberRows(3, new Uint32Array(3 * ROOM));
  return {
    findOrAdd({ sample, species, season, county, operation, record }: Judged): Sample {
      const key = hashOf(sample!.toUpperCase(), species, season);
      const place = Number(county ?? 0);
      const farm = operation === null ? 0 : hashOf(operation).low || 1;
      const known = chains.last(key);
      if (known < 0) {
        numbers.set(chains.add(key), record, place, farm);
        return { record, differs: null };
      }
      const isElsewhere = differ(place, numbers.at(known, 1));
      const isAnothers = differ(farm, numbers.at(known, 2));
      return {
        record: numbers.at(known, 0),
        differs: isElsewhere ? 'county' : isAnothers ? 'operation' : null,
      };
    },
  };
}

/** Whether two that are known (not 0) are not the same. */
function differ(a: number, b: number): boolean {
  return a !== 0 && b !== 0 && a !== b;
}

/** Points of the fields of each operation's tests. */
function createFields() {
  const chains = createHashChains();
  // For each entry: record, hash of the sample number, latitude, longitude.
  const numbers = createNumberRows(4, new Float64Array(4 * ROOM));
  return {
    /** The record of an earlier field of another sample number that is so near, or null. */
    findOrAdd({
      operation,
      sample,
      season,
      record,
      lat,
      lon,
      species,
      group,
      rateMultiple,
    }: Judged): number | null {
      if (operation === null || sample === null || season === null || lat === null || lon === null)
        return null;
      const key = hashOf(operation, species, group, rateMultiple, season);
      const name = hashOf(sample).low;
      let near: number | null = null;
      for (let entry = chains.last(key); entry >= 0; entry = chains.before(entry)) {
        if (numbers.at(entry, 1) === name) continue;
        const theirs = { lat: numbers.at(entry, 2), lon: numbers.at(entry, 3) };
        if (isSameField({ lat, lon }, theirs)) near = numbers.at(entry, 0);
      }
      numbers.set(chains.add(key), record, name, lat, lon);
      return near;
    },
  };
}

/** Sample numbers by bag. */
function createBags() {
  const bags = new Map<string, { sample: string; record: number }>();
  return {
    /** The record that brought the bag under another sample number, or null. */
    findOrAdd({ bag, season, sample, record }: Judged): number | null {
      if (bag === null || sample === null) return null;
      const key = `${bag}\u001f${season}`;
      const other = bags.get(key);
      if (other === undefined) bags.set(key, { sample, record });
      return other !== undefined && other.sample !== sample ? other.record : null;
    },
  };
}

function duplicate({ sample }: Judged, { record }: Seen): Reading<true> {
  const reason = `Sample ${sample} stands in record ${record} already, with the same species, group, rate and data.`;
  return refuses('sample', 'DUPLICATE', reason, 'Nothing to do: it counts once.');
}

function differs(row: Judged, same: Seen, definition: CaseDefinition): Reading<true> {
  let reason = `Sample ${row.sample} stands in record ${same.record} already with the same species, group and rate, but other data`;
  let remedy = 'Is it a second run (then let it stand), or is one of the two wrong?';
  if (same.alive !== null && row.alive !== null && shown(same) !== shown(row)) {
    reason += `: ${shown(same)} alive there, ${shown(row)} here`;
    remedy += asTwoRuns(row, same, definition);
  }
  return doubts(true, 'sample', 'DUPLICATE_CONFLICT', `${reason}.`, remedy);
}

/** What the two would say as two runs. */
function asTwoRuns(row: Judged, same: Seen, definition: CaseDefinition): string {
  const tray = (run: string, { treated, alive }: Pick<Seen, 'treated' | 'alive'>) => ({
    run,
    valid: true,
    treated,
    alive,
    stated: null,
  });
  const test = { assay: row.assay!, rateMultiple: row.rateMultiple };
  const derived = deriveResult(definition, test, [tray('there', same), tray('here', row)]);
  if (derived.kind === 'runs differ')
    return ` As two runs they differ: ${derived.runs.map(({ result }) => result).join(' and ')}.`;
  return derived.kind === 'result'
    ? ` As two runs they make ${derived.alive} of ${derived.treated}: ${derived.result}.`
    : '';
}

function sampleDiffers({ sample, county, operation }: Judged, { record, differs }: Sample): Reading<true> {
  const what = differs === 'county' ? `county ${county}` : `operation ${operation}`;
  const reason = `Sample ${sample} comes from another ${differs} in record ${record} than ${what} in this one.`;
  return doubts(
    true,
    'sample',
    'SAMPLE_DIFFERS',
    reason,
    'Say which holds; two fields need two sample numbers.',
  );
}

function sameField({ sample }: Judged, record: number): Reading<true> {
  const reason = `Sample ${sample} comes from the same operation, species, group and season as record ${record}, and from within ${SAME_FIELD_METRES} m of it, under another number.`;
  return doubts(true, 'sample', 'SAME_FIELD', reason, 'Is it the same field twice, or two fields?');
}

function sameBag({ sample, bag }: Judged, record: number): Reading<true> {
  const reason = `Bag ${bag} stands in record ${record} already under another sample number than ${sample}.`;
  return doubts(
    true,
    'bag',
    'SAME_BAG',
    reason,
    'Is it the same bag twice, or are there two bags of this number?',
  );
}

function shown({ treated, alive }: Pick<Seen, 'treated' | 'alive'>): string {
  return `${alive} of ${treated}`;
}
