import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { type Amendment, amendRecord } from '@/db/repositories/amend';
import { applyCaseDefinition } from '@/db/repositories/case-definitions';
import { readDoseSeries } from '@/db/repositories/dose-series';
import { readTests } from '@/db/repositories/facts';
import {
  addEarlierFinds,
  confirmFirstFinds,
  listEarlierFinds,
  listFirstFinds,
  removeEarlierFind,
  reopenFirstFind,
} from '@/db/repositories/first-finds';
import { readHistory } from '@/db/repositories/history';
import { listImports, undoImport } from '@/db/repositories/imports';
import { changeLaboratory, laboratoryProfile } from '@/db/repositories/laboratories';
import { lateChanges } from '@/db/repositories/late-changes';
import { setProgramme } from '@/db/repositories/programme';
import { countQuestions, openQuestions } from '@/db/repositories/questions';
import { readRecord } from '@/db/repositories/read-record';
import { saveRelease } from '@/db/repositories/releases';
import { rememberReading } from '@/db/repositories/remember';
import { reportResults, unreported } from '@/db/repositories/reported';
import { listRuns } from '@/db/repositories/runs';
import { type StoredSheet, storeSheet } from '@/db/repositories/sheets';
import type { Answer } from '@/db/schema/intake';
import { atlasCounties } from '@/lib/geography/atlas';
import { fitDoses } from '@/lib/intake/confirmation/fit-doses';
import type { Header } from '@/lib/intake/find-header';
import { judgeSheet } from '@/lib/intake/judge-sheet';
import { createStoredJudge } from '@/lib/intake/judge-stored';
import { readSheet } from '@/lib/intake/read-sheet';
import { namesOf } from '@/lib/intake/sheet-row';
import { CASE_DEFINITIONS } from '@/lib/vocabulary/case-definition';
import { sheetOf as csvOf, GOOD } from '../lib/intake/judging';
import { type TestDatabase, testDatabase } from '../support/database';
import { CLEAN, cellOf, draftOf, sheetOf } from './invented';

// All sheets here are invented.
const STATES = ['NE', 'KS'];
const AS_OF = '2026-11-20';
const definition = CASE_DEFINITIONS[0]!;
const judge = createStoredJudge({ states: STATES, counties: atlasCounties(), definition });

let database: TestDatabase;
let db: StaffDatabase;

beforeEach(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  const programme = {
    name: 'Invented',
    regionName: 'Invented basin',
    states: STATES,
    simulated: true,
    laboratory: 'Invented Laboratory',
  };
  await setProgramme(db, programme);
});

afterEach(async () => {
  await closeClient(db);
  await database.drop();
});

/** Imports rows as a command does: each is the good one but for some cells. */
async function bring(
  name: string,
  rows: Partial<Record<string, string>>[],
  headings?: string[],
): Promise<StoredSheet> {
  let header: Header | null = null;
  const profile = await laboratoryProfile(db, 'Invented Laboratory');
  const text = csvOf(rows, headings === undefined ? {} : { headings });
  const source = readSheet(new TextEncoder().encode(text), {
    profile,
    onHeader: (found) => {
      header = found;
    },
  });
  const read = [];
  for await (const row of source) read.push(row);
  const { headings: own, places, lacking } = header!;
  const columns = Object.fromEntries([...places].map(([column, place]) => [column, own[place]!]));
  const sheet = { ...sheetOf(name), asOf: AS_OF, definition, headings: namesOf(own), columns, lacking };
  return storeSheet(db, {
    sheet,
    records: judgeSheet(read, { states: STATES, counties: atlasCounties(), asOf: AS_OF, definition }),
  });
}

const amend = (sheetId: number, record: number, answer: Answer, over: Partial<Amendment> = {}) =>
  amendRecord(
    db,
    { sheetId, record, answer, by: 'A. Tester', why: 'a test', question: null, remember: false, ...over },
    { judge, definition },
  );
const results = async () => (await readTests(db)).map(({ group, result }) => `${group} ${result}`);
const asked = async () => (await openQuestions(db)).map(({ record, reason }) => `${record} ${reason.code}`);

describe('a question', () => {
  it('waits with its row as sent, its reason and the answers that fit', async () => {
    await bring('a', [{ Weed: 'pigweed', Remarks: 'call 402-555-0100' }]);
    const [question] = await openQuestions(db);
    expect(question).toMatchObject({ record: 1, line: 2, laboratory: 'Invented Laboratory', alike: 1 });
    expect(question!.raw).toMatchObject({ Weed: 'pigweed', Remarks: 'call 402-555-0100' });
    expect(question!.reason).toMatchObject({
      code: 'SPECIES_AMBIGUOUS',
      key: 'weed',
      value: 'pigweed',
      memorable: true,
      mayStand: false,
    });
    expect(question!.reason.candidates).toContain('Amaranthus retroflexus');
    expect(await countQuestions(db)).toEqual([{ code: 'SPECIES_AMBIGUOUS', count: 1 }]);
  });

  it('is answered by reading a cell otherwise; the row then counts, and the answer is in the history', async () => {
    const { sheetId } = await bring('a', [{ Weed: 'pigweed' }]);
    const [question] = await openQuestions(db);
    const { record } = await amend(
      sheetId,
      1,
      { kind: 'reads', cells: { weed: 'AMATU' } },
      { question: question!.id },
    );
    expect(record).toMatchObject({ outcome: 'accepted', result: 'resistant' });
    expect(await asked()).toEqual([]);
    expect(await results()).toEqual(['9 resistant']);
    expect((await readHistory(db, { sheetId, record: 1 })).map(({ what, by }) => [what, by])).toEqual([
      ['question answered', 'A. Tester'],
    ]);
    await expect(amend(sheetId, 1, { kind: 'dropped' }, { question: question!.id })).rejects.toThrow(
      /answered it: weed is read as “AMATU”/,
    );
  });

  it('that is answered with a remembered wording answers all rows alike, and the next sheet of the laboratory', async () => {
    const { sheetId } = await bring('a', [
      { 'Sample #': 'T-1', Weed: 'pigweed' },
      { 'Sample #': 'T-2', Weed: 'pigweed' },
      { 'Sample #': 'T-3', Weed: 'foxtail' },
    ]);
    const [question] = await openQuestions(db);
    expect(question!.alike).toBe(2);
    const { alike } = await amend(
      sheetId,
      1,
      { kind: 'reads', cells: { weed: 'Amaranthus retroflexus' } },
      { question: question!.id, remember: true },
    );
    expect(alike).toMatchObject([{ record: 2, outcome: 'accepted', reasons: [] }]);
    expect(await asked()).toEqual(['3 SPECIES_AMBIGUOUS']);
    expect(await bring('b', [{ 'Sample #': 'T-4', Weed: 'pigweed' }])).toMatchObject({
      accepted: 1,
      inQuestion: 0,
    });
    expect(await results()).toHaveLength(3);
  });

  it('whose wording many rows share is remembered step by step, and those with another question keep it', async () => {
    const rows = Array.from({ length: 230 }, (_, i) => ({
      'Sample #': `T-${i + 1}`,
      Weed: 'pigweed',
      ...(i === 150 ? { 'Plants treated': '8', 'Plants alive': '4' } : {}),
    }));
    const { sheetId } = await bring('a', rows);
    const explained = { sheetId, record: 1, column: 'weed', readAs: 'Amaranthus retroflexus' } as const;
    const told: number[] = [];
    const judging = { judge, definition };
    expect(await rememberReading(db, explained, judging, (done) => void told.push(done))).toBe(230);
    expect(told).toEqual([100, 200, 230]);
    expect(await asked()).toEqual(['151 TOO_FEW_PLANTS']);
    expect(await results()).toHaveLength(229);
    // What waits no longer is not judged again.
    expect(await rememberReading(db, explained, judging, () => {})).toBe(0);
    expect(await bring('b', [{ 'Sample #': 'T-500', Weed: 'pigweed' }])).toMatchObject({ accepted: 1 });
  });

  it('is asked and remembered alike where rows were stored by heading, as they were once', async () => {
    const { sheetId } = await bring('a', [
      { 'Sample #': 'T-1', Weed: 'pigweed' },
      { 'Sample #': 'T-2', Weed: 'pigweed' },
    ]);
    const [before] = await openQuestions(db);
    await db.$client`
      update intake.record r set raw = (
        select json_object_agg(heading, r.raw->>(place::int - 1) order by place)
        from unnest(s.headings) with ordinality as names (heading, place))
      from intake.sheet s where s.id = r.sheet_id`;
    await db.$client`update intake.sheet set headings = '{}'`;
    const [question] = await openQuestions(db);
    expect(question).toEqual(before);
    const { record, alike } = await amend(
      sheetId,
      1,
      { kind: 'reads', cells: { weed: 'Amaranthus retroflexus' } },
      { question: question!.id, remember: true },
    );
    expect([record, ...alike]).toMatchObject([{ outcome: 'accepted' }, { record: 2, outcome: 'accepted' }]);
  });

  it('may be overruled where the row has all that counts', async () => {
    const { sheetId } = await bring('a', [{ 'Plants treated': '8', 'Plants alive': '4' }]);
    const [question] = await openQuestions(db);
    expect(question!.reason).toMatchObject({ code: 'TOO_FEW_PLANTS', mayStand: true });
    const { record } = await amend(
      sheetId,
      1,
      { kind: 'stands', code: 'TOO_FEW_PLANTS' },
      { question: question!.id },
    );
    expect(record).toMatchObject({ outcome: 'accepted', result: 'resistant' });
  });

  it('stays open in what an answer does not settle, and asks what the answer raises', async () => {
    const { sheetId } = await bring('a', [{ Weed: 'pigweed', Rate: '20 oz/A' }]);
    expect(await asked()).toEqual(['1 SPECIES_AMBIGUOUS', '1 RATE_UNIT']);
    await amend(sheetId, 1, { kind: 'reads', cells: { weed: 'AMATU' } });
    expect(await asked()).toEqual(['1 RATE_UNIT']);
    await amend(sheetId, 1, { kind: 'reads', cells: { rate: '1x', treated: 'forty' } });
    expect(await asked()).toEqual(['1 COUNTS_NOT_NUMERIC']);
    await amend(sheetId, 1, { kind: 'reads', cells: { treated: '40' } });
    expect(await results()).toEqual(['9 resistant']);
  });
});

describe('a correction', () => {
  it('replaces a result without erasing it', async () => {
    const { sheetId } = await bring('a', [{}]);
    await amend(sheetId, 1, { kind: 'reads', cells: { alive: '0' } });
    expect(await results()).toEqual(['9 susceptible']);
    const history = await readHistory(db, { sheetId });
    expect(history.map(({ what }) => what)).toEqual(['import', 'record corrected']);
    expect(history[1]).toMatchObject({
      by: 'A. Tester',
      why: 'a test',
      before: { alive: 12, result: 'resistant' },
      after: { result: 'susceptible' },
    });
    const [row] = await db.$client`
      select raw->>(array_position(headings, 'Plants alive') - 1) as sent
      from intake.record join intake.sheet s on s.id = sheet_id`;
    expect(row).toEqual({ sent: '12' });
  });

  it('may move a record to another population; a retraction takes it out, and a later word brings it back', async () => {
    const { sheetId } = await bring('a', [{}, { 'Herbicide / Group': '2' }]);
    await amend(sheetId, 1, { kind: 'reads', cells: { weed: 'kochia' } });
    expect((await readTests(db)).map(({ species, group }) => `${species} ${group}`)).toEqual([
      'AMATU 2',
      'KCHSC 9',
    ]);
    await amend(sheetId, 1, { kind: 'dropped' });
    expect((await readTests(db)).map(({ species }) => species)).toEqual(['AMATU']);
    expect(await db.$client`select count(*)::int as n from surveillance.population`).toEqual([{ n: 1 }]);
    await amend(sheetId, 1, { kind: 'reads', cells: {} });
    expect(await readTests(db)).toHaveLength(2);
  });

  it('is told from what was there when a release was made, within the same minute too', async () => {
    const { sheetId } = await bring('a', [{}, { 'Sample #': 'S-2' }]);
    await amend(sheetId, 1, { kind: 'reads', cells: { alive: '0' } });
    await saveRelease(db, { draft: draftOf([cellOf()]), audit: CLEAN, files: () => [] });
    await amend(sheetId, 2, { kind: 'reads', cells: { alive: '0' } });
    const changed = async (record: number) => (await readRecord(db, { sheetId, record }))!.last!.at;
    const { madeAt } = (await lateChanges(db))!;
    expect([(await changed(1)) < madeAt, (await changed(2)) > madeAt]).toEqual([true, true]);
  });

  it('never rewrites the history', async () => {
    await bring('a', [{}]);
    for (const statement of [
      'delete from intake.history',
      `update intake.history set why = 'other'`,
      'truncate intake.history',
    ]) {
      await expect(db.$client.unsafe(statement), statement).rejects.toThrow();
    }
  });
});

describe('an import', () => {
  it('is undone as a whole, and can be brought in again', async () => {
    const first = await bring('a', [{ 'Sample #': 'T-1' }, { 'Sample #': 'T-2', Weed: 'pigweed' }]);
    await bring('b', [{ 'Sample #': 'T-1', 'Herbicide / Group': '2' }]);
    await undoImport(db, { sheetId: first.sheetId, definition, by: 'A. Tester', why: 'wrong file' });
    expect(await results()).toEqual(['2 resistant']);
    expect(await asked()).toEqual([]);
    expect((await listImports(db)).map(({ undoneAt }) => undoneAt === null)).toEqual([true, false]);
    expect(await db.$client`select count(*)::int as n from intake.record where not standing`).toEqual([
      { n: 2 },
    ]);
    await expect(undoImport(db, { sheetId: first.sheetId, definition, by: 'x', why: 'x' })).rejects.toThrow(
      /undone before/,
    );
    await expect(amend(first.sheetId, 1, { kind: 'dropped' })).rejects.toThrow(/undone/);
    expect(await bring('a', [{ 'Sample #': 'T-1' }])).toMatchObject({ storedBefore: false, accepted: 1 });
    expect(await results()).toEqual(['2 resistant', '9 resistant']);
  });

  it('that is in a release can only be corrected', async () => {
    const { sheetId } = await bring('a', [{}]);
    await db.$client`insert into surveillance.release_sheet values (3, ${sheetId})`;
    await expect(undoImport(db, { sheetId, definition, by: 'x', why: 'x' })).rejects.toThrow(/in release 3/);
    await amend(sheetId, 1, { kind: 'dropped' });
    expect(await results()).toEqual([]);
  });
});

describe('replicates and runs', () => {
  const HEADINGS = [...Object.keys(GOOD), 'Run', 'Rep'];
  const tray = (run: string, rep: string, alive: string, over = {}) => ({
    Run: run,
    Rep: rep,
    'Plants alive': alive,
    ...over,
  });

  it('of one test are added up, in one sheet and over several', async () => {
    await bring('a', [tray('A', '1', '2'), tray('A', '2', '3')], HEADINGS);
    expect(await readTests(db)).toMatchObject([{ treated: 80, alive: 5, result: 'some survivors' }]);
    await bring('b', [tray('A', '3', '4'), tray('B', '1', '1')], HEADINGS);
    expect(await readTests(db)).toMatchObject([{ treated: 160, alive: 10, result: 'some survivors' }]);
  });

  it('that contradict each other count as inconclusive and ask; a person lets the sum stand or drops one', async () => {
    const { sheetId } = await bring('a', [tray('A', '', '30'), tray('B', '', '2')], HEADINGS);
    expect(await readTests(db)).toMatchObject([{ treated: 80, alive: 32, result: 'inconclusive' }]);
    const [question] = await openQuestions(db);
    expect(question!.reason).toMatchObject({ code: 'RUNS_DIFFER', mayStand: true });
    expect(question!.reason.reason).toContain(
      'run A: 30 of 40 alive, resistant; run B: 2 of 40 alive, some survivors',
    );
    await amend(
      sheetId,
      question!.record,
      { kind: 'stands', code: 'RUNS_DIFFER' },
      { question: question!.id },
    );
    expect(await results()).toEqual(['9 resistant']);
    await amend(sheetId, 1, { kind: 'dropped' });
    expect(await readTests(db)).toMatchObject([{ treated: 40, alive: 2, result: 'some survivors' }]);
    expect(await asked()).toEqual([]);
  });

  it('are void where their check rows misbehaved, and count again when the check is corrected', async () => {
    const check = { 'Sample #': 'S check', Run: 'A', 'Plants alive': '9' };
    const noCheck = HEADINGS.filter((heading) => heading !== 'S check');
    const { sheetId, accepted } = await bring(
      'a',
      [tray('A', '1', '30'), tray('B', '1', '30', { 'Sample #': 'T-2' }), check],
      noCheck,
    );
    expect(accepted).toBe(3);
    expect(await results()).toEqual(['9 void run', '9 void run']);
    expect(await listRuns(db.$client)).toMatchObject([
      { name: 'A', valid: false, why: expect.stringContaining('9 of 40 alive') },
      { name: 'B', valid: false, why: 'no check row was sent with the run' },
    ]);
    await amend(sheetId, 3, { kind: 'reads', cells: { alive: '0' } });
    expect(await results()).toEqual(['9 resistant', '9 void run']);
    await bring('b', [{ ...check, Run: 'B', 'Plants alive': '0' }], noCheck);
    expect(await results()).toEqual(['9 resistant', '9 resistant']);
  });

  it('of several doses are a series, with the series of their check; a void run is none', async () => {
    const doses = ['1/8', '1/4', '1/2', '1x', '2x', '4x', '8x', '16x'];
    const alive = (ed50: number, dose: string) => {
      const [, part] = /^1\/(\d)$/.exec(dose) ?? [];
      const multiple = part ? 1 / Number(part) : Number(dose.replace('x', ''));
      return String(Math.round(40 / (1 + (multiple / ed50) ** 2)));
    };
    const noCheck = HEADINGS.filter((heading) => heading !== 'S check');
    const series = (sample: string, ed50: number, run: string) =>
      doses.map((Rate) => ({ 'Sample #': sample, Run: run, Rate, 'Plants alive': alive(ed50, Rate) }));
    await bring(
      'a',
      [...series('T-1', 3, 'A'), ...series('S check', 0.2, 'A'), ...series('T-2', 3, 'B')],
      noCheck,
    );
    const [run, ...others] = await readDoseSeries(db, {});
    expect(others).toEqual([]);
    expect(run).toMatchObject({ run: 'A', group: 9, series: [{ sample: 'T-1' }] });
    expect(run!.check).toHaveLength(8);
    const [fit] = fitDoses(run!.series, run!.check);
    expect(fit).toMatchObject({ ed50: { kind: 'estimate' }, index: { kind: 'estimate' } });
    expect(await readDoseSeries(db, { run: 'B' })).toEqual([]);
  });

  it('sent twice without a run number are asked about; a second run that stands is added up', async () => {
    const { sheetId } = await bring('a', [{}, { 'Plants alive': '14' }]);
    const [question] = await openQuestions(db);
    expect(question!.reason).toMatchObject({ code: 'DUPLICATE_CONFLICT', mayStand: true });
    await amend(sheetId, 2, { kind: 'stands', code: 'DUPLICATE_CONFLICT' }, { question: question!.id });
    expect(await readTests(db)).toMatchObject([{ treated: 80, alive: 26, result: 'resistant' }]);
  });
});

describe('possible repeats between sheets', () => {
  const at = (lat: string, over = {}) => ({ Lat: lat, Long: '-96.70000', ...over });

  it('of one field within 150 m, or of one bag, are asked about', async () => {
    const headings = [...Object.keys(GOOD), 'Bag #'];
    await bring('a', [at('40.80000', { 'Bag #': '17' })], headings);
    await bring(
      'b',
      [
        at('40.80100', { 'Sample #': 'T-2' }),
        at('40.90000', { 'Sample #': 'T-3' }),
        { 'Sample #': 'T-4', 'Bag #': '17' },
      ],
      headings,
    );
    expect(await asked()).toEqual(['1 SAME_FIELD', '3 SAME_BAG']);
    const { sheetId } = (await openQuestions(db))[0]!;
    await amend(sheetId, 1, { kind: 'stands', code: 'SAME_FIELD' });
    expect(await readTests(db)).toHaveLength(3);
  });
});

describe('a first find', () => {
  it('of a species × group × active in a state awaits its second run, and holds those like it back', async () => {
    await bring('a', [
      { 'Sample #': 'T-1', County: 'Saunders' },
      { 'Sample #': 'T-2' },
      { 'Sample #': 'T-3', State: 'KS', County: 'Riley' },
    ]);
    const finds = await listFirstFinds(db);
    expect(finds.map(({ stateFips, active, held }) => [stateFips, active, held])).toEqual([
      ['20', 'glyphosate', 1],
      ['31', 'glyphosate', 2],
    ]);
    expect((await readTests(db)).map(({ held }) => held)).toEqual([true, true, true]);
    await confirmFirstFinds(db, { ids: [finds[1]!.id], by: 'A. Tester', why: 'second run agreed' });
    expect((await readTests(db)).map(({ held }) => held)).toEqual([false, false, true]);
    await reopenFirstFind(db, { id: finds[1]!.id, by: 'A. Tester', why: 'the seed was mixed up' });
    expect((await readTests(db)).every(({ held }) => held)).toBe(true);
  });

  it('that is retracted undoes itself: the next result becomes the first', async () => {
    const { sheetId } = await bring('a', [{ 'Sample #': 'T-1' }, { 'Sample #': 'T-2' }]);
    await confirmFirstFinds(db, { ids: [(await listFirstFinds(db))[0]!.id], by: 'x', why: 'x' });
    await amend(sheetId, 1, { kind: 'dropped' });
    expect(await listFirstFinds(db)).toMatchObject([{ sample: 'T-2', confirmedAt: null, held: 1 }]);
    await amend(sheetId, 2, { kind: 'dropped' });
    expect(await listFirstFinds(db)).toEqual([]);
  });

  it('of another active is one of its own; the group alone is known by any active of it', async () => {
    await bring('a', [{ 'Sample #': 'T-1', 'Herbicide / Group': 'dicamba', DAT: '28' }]);
    await confirmFirstFinds(db, { ids: [(await listFirstFinds(db))[0]!.id], by: 'x', why: 'x' });
    await bring('b', [
      { 'Sample #': 'T-2', 'Herbicide / Group': 'group 4', DAT: '28' },
      { 'Sample #': 'T-3', 'Herbicide / Group': 'fluroxypyr', DAT: '28' },
    ]);
    expect(
      (await listFirstFinds(db)).map(({ active, confirmedAt }) => [active, confirmedAt !== null]),
    ).toEqual([
      ['fluroxypyr', false],
      ['dicamba', true],
    ]);
    expect((await readTests(db)).map(({ held }) => held)).toEqual([false, false, true]);
  });

  it('is none where the resistance was known before the programme', async () => {
    const find = {
      species: 'AMATU',
      group: 9,
      active: '',
      season: 2010,
      county: '31109',
      source: 'an invented bulletin',
    };
    await bring('a', [{ 'Sample #': 'T-1' }]);
    await addEarlierFinds(db, { finds: [find], by: 'A. Tester' });
    expect(await listFirstFinds(db)).toEqual([]);
    expect((await readTests(db)).map(({ held }) => held)).toEqual([false]);
    const [earlier] = await listEarlierFinds(db);
    expect(earlier).toMatchObject(find);
    await removeEarlierFind(db, { id: earlier!.id, by: 'A. Tester', why: 'another plant' });
    expect(await listFirstFinds(db)).toHaveLength(1);
  });
});

describe('deriving results by another case definition', () => {
  it('shows what would change before it does, and does it on demand', async () => {
    await bring('a', [
      { 'Sample #': 'T-1' },
      { 'Sample #': 'T-2', 'Plants alive': '30' },
      { 'Sample #': 'T-3', 'Plants alive': '0' },
    ]);
    const stricter = CASE_DEFINITIONS.find(({ version }) => version === 'survivors 50 %')!;
    const changed: string[] = [];
    const order = {
      definition: stricter,
      by: 'A. Tester',
      onChange: ({ sample }: { sample: string }) => void changed.push(sample),
    };
    const expected = { tests: 3, moves: [{ before: 'resistant', after: 'some survivors', tests: 1 }] };
    expect(await applyCaseDefinition(db, { ...order, store: false })).toEqual(expected);
    expect(changed).toEqual(['T-1']);
    expect(await results()).toEqual(['9 resistant', '9 resistant', '9 susceptible']);
    expect(await applyCaseDefinition(db, { ...order, store: true })).toEqual(expected);
    expect(await results()).toEqual(['9 some survivors', '9 resistant', '9 susceptible']);
    expect((await listFirstFinds(db)).map(({ sample }) => sample)).toEqual(['T-2']);
    expect((await readHistory(db))[0]).toMatchObject({ what: 'case definition applied' });
  });
});

describe('what is remembered of a laboratory', () => {
  it('tells its headings and what its sheets lack', async () => {
    const headings = Object.keys(GOOD).filter((name) => !['S check', 'Rate', 'Weed'].includes(name));
    await expect(bring('a', [{ Plantita: 'waterhemp' }], [...headings, 'Plantita'])).rejects.toThrow(
      /Needed columns are missing: Weed, Rate, S check/,
    );
    const change = { headings: { plantita: 'weed' }, lacking: { check: 'Y', rate: '1x' } } as const;
    await changeLaboratory(db, { name: 'Invented Laboratory', change, by: 'A. Tester' });
    expect(await bring('a', [{ Plantita: 'waterhemp' }], [...headings, 'Plantita'])).toMatchObject({
      accepted: 1,
    });
    const [sheet] = await listImports(db);
    expect(sheet).toMatchObject({
      columns: { weed: 'Plantita' },
      lacking: { check: 'Y', rate: '1x' },
    });
    const forget = { headings: { plantita: undefined }, lacking: { check: null } };
    expect(
      await changeLaboratory(db, { name: 'Invented Laboratory', change: forget, by: 'x' }),
    ).toMatchObject({ headings: {}, lacking: { rate: '1x' } });
  });
});

describe('reporting to senders', () => {
  it('is kept for each sample, and what is missing is known', async () => {
    await bring('a', [
      { 'Sample #': 'T-1' },
      { 'Sample #': 'T-2' },
      { 'Sample #': 'T-3', 'Date collected': '2025-09-01' },
    ]);
    expect(await unreported(db)).toEqual([
      { season: 2025, populations: 1 },
      { season: 2026, populations: 2 },
    ]);
    expect(await reportResults(db, { season: 2026, samples: ['t-1'], on: '2026-11-20', by: 'x' })).toBe(1);
    expect(await reportResults(db, { season: 2026, on: '2026-11-21', by: 'x' })).toBe(1);
    expect(await unreported(db)).toEqual([{ season: 2025, populations: 1 }]);
  });
});
