import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  closeClient,
  type PublicDatabase,
  publicClient,
  type StaffDatabase,
  staffClient,
} from '@/db/clients';
import { readTests } from '@/db/repositories/facts';
import { latestRelease, releasedCells, releaseFile } from '@/db/repositories/published';
import { releaseBases } from '@/db/repositories/release-basis';
import {
  asksTwoPersons,
  dropDraft,
  listDrafts,
  publishDraft,
  readDraft,
  readDraftBody,
  readDraftFile,
} from '@/db/repositories/release-drafts';
import { withdrawRelease } from '@/db/repositories/releases';
import { factsOf } from '@/lib/cube/facts';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { draftRelease } from '@/lib/jobs/draft-release';
import type { FullDraftReport } from '@/lib/jobs/draft-report';
import { lossOfDraft, lossOfRelease } from '@/lib/jobs/finding-loss';
import { programmeOf } from '@/lib/jobs/programme-of';
import { runDemoStages } from '@/scripts/support/demo-stages';
import { startSteps } from '@/scripts/support/steps';
import { type TestDatabase, testDatabase } from '../../support/database';

// The simulated scenario's small size, with its first release.
let database: TestDatabase;
let staff: StaffDatabase;
let published: PublicDatabase;
let folder: string;

beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  published = publicClient(database.publicUrl);
  folder = mkdtempSync(join(tmpdir(), 'fencerow-drafts-'));
  await runDemoStages({ size: 'small', seed: 1, folder, staff, published, steps: startSteps(() => {}) });
}, 240_000);

afterAll(async () => {
  await closeClient(staff);
  await closeClient(published);
  rmSync(folder, { recursive: true, force: true });
  await database.drop();
});

const ADA = { by: 'Ada Invented', personId: 'ada' };
const BO = { by: 'Bo Invented', personId: 'bo' };

async function draft(): Promise<number> {
  const programme = await programmeOf(staff);
  return draftRelease(staff, {
    ...{ programme, date: '2026-03-01', note: 'An invented note.', ...ADA },
    tell: () => {},
  });
}

describe('a draft', () => {
  it('shows nothing to the public, and tells whoever decides what is lost and what changed', async () => {
    const id = await draft();
    const { report, ...stored } = (await readDraft<FullDraftReport>(staff, id))!;
    expect(stored).toMatchObject({ state: 'open', number: 2, madeBy: 'Ada Invented', date: '2026-03-01' });
    expect((await latestRelease(published))!.number).toBe(1);

    // What is told of each county adds up to what was screened.
    const wholePlant = factsOf(await readTests(staff)).filter(
      (fact) => fact.publicShare && fact.assay === 'whole plant',
    );
    const isTested = ({ result }: { result: string }) =>
      ['resistant', 'some survivors', 'susceptible'].includes(result);
    const windows = (await latestRelease(published))!.windows;
    const inWindows = wholePlant.filter(
      (fact) =>
        isTested(fact) && windows.some(({ first, last }) => first <= fact.season && fact.season <= last),
    );
    const told = report.shown.flatMap((pair) => pair.windows.flatMap(({ counties }) => counties));
    const sum = told.reduce((total, [, tested]) => total + tested, 0);
    expect(sum).toBeLessThanOrEqual(inWindows.length);
    expect(sum).toBeGreaterThan(inWindows.length * 0.9);
    expect(new Set(told.map(([, , by]) => by)).size).toBeGreaterThan(1);

    // Nothing was stored since the first release, so nothing differs from it.
    expect(report.changes).toMatchObject({ since: { number: 1 }, byPair: [], windows: [] });
    expect(report.findingChanges).toEqual([]);
    const { draft: body } = (await readDraftBody(staff, id))!;
    expect(body.cube.cells).toHaveLength(report.cells);
    const csv = stored.files.find(({ name }) => name.endsWith('-cells.csv'))!;
    expect((await readDraftFile(staff, { id, name: csv.name }))!.bytes).toHaveLength(csv.bytes);
  });

  it('loses, beside exact counts, what the release of the same samples loses', async () => {
    const [open] = await listDrafts(staff);
    const { number, date, ...loss } = await lossOfDraft(staff, open!.id);
    expect({ number, date }).toEqual({ number: null, date: '2026-03-01' });
    const released = await lossOfRelease(staff, 1);
    expect(loss).toEqual({
      ofWhatEntered: true,
      clusterings: released.clusterings,
      detections: released.detections,
      speeds: released.speeds,
    });
    expect(loss.clusterings.length).toBeGreaterThan(5);
    expect(loss.detections.reduce((sum, { exact }) => sum + exact, 0)).toBeGreaterThan(20);
  });

  it('takes the place of one that was open', async () => {
    const [before] = await listDrafts(staff);
    const id = await draft();
    expect(await readDraft(staff, before!.id)).toMatchObject({ state: 'dropped', decidedBy: 'Ada Invented' });
    await expect(lossOfDraft(staff, before!.id)).rejects.toThrow(/This draft is decided/);
    expect(await readDraft(staff, id)).toMatchObject({ state: 'open' });
  });

  it('is published by another person alone, where the programme asks for two', async () => {
    const [open] = await listDrafts(staff);
    expect(await asksTwoPersons(staff)).toBe(false);
    await staff.$client`update surveillance.programme set two_publishers = true`;
    await expect(publishDraft(staff, { id: open!.id, ...ADA })).rejects.toThrow(/You drafted this release/);
    await staff.$client`update surveillance.programme set two_publishers = false`;
    expect(await readDraft(staff, open!.id)).toMatchObject({ state: 'open' });
  });

  it('is published once, as it was looked at, when two publish it at the same time', async () => {
    const { id } = (await listDrafts(staff))[0]!;
    const { draft: body } = (await readDraftBody(staff, id))!;
    const outcomes = await Promise.allSettled([
      publishDraft(staff, { id, ...ADA }),
      publishDraft(staff, { id, ...BO }),
    ]);
    const won = outcomes.filter((one) => one.status === 'fulfilled');
    const lost = outcomes.filter((one) => one.status === 'rejected');
    expect(won.map(({ value }) => value)).toEqual([2]);
    expect(lost).toHaveLength(1);
    expect(String(lost[0]!.reason.message)).toMatch(
      /^(Ada|Bo) Invented has published this draft already, as release 2\./,
    );

    const head = (await latestRelease(published))!;
    expect(head).toMatchObject({ number: 2, date: '2026-03-01', note: 'An invented note.' });
    const pair = head.leading!;
    const own = body.cube.cells.filter((cell) => cell.species === pair.species && cell.group === pair.group);
    const shown = await releasedCells(published, 2, pair);
    expect(shown.map((cell) => [cellKeyText(cell), cell.counts]).sort()).toEqual(
      own.map((cell) => [cellKeyText(cell), cell.counts]).sort(),
    );
    const csv = head.files.find(({ name }) => name.endsWith('-cells.csv'))!;
    expect((await releaseFile(published, 2, csv.name))!.bytes).toHaveLength(csv.bytes);
    // The next release is audited beside it.
    const bases = await releaseBases(staff);
    expect(bases.get(2)!.facts).toHaveLength(bases.get(1)!.facts.length);
    expect((await readDraft(staff, id))!.files).toEqual([]);
  });

  it('is not published when what it was made of has changed', async () => {
    const id = await draft();
    await staff.$client`
      update surveillance.population set public_share = false
      where id = (select min(id) from surveillance.population where public_share)`;
    await expect(publishDraft(staff, { id, ...BO })).rejects.toThrow(/has changed since this draft/);
    expect((await latestRelease(published))!.number).toBe(2);
    await dropDraft(staff, { id, by: 'Bo Invented' });
    await expect(publishDraft(staff, { id, ...BO })).rejects.toThrow('Bo Invented has dropped this draft.');
    await expect(dropDraft(staff, { id, by: 'Ada Invented' })).rejects.toThrow('has dropped');
  });

  it('is not published on top of a release that was withdrawn since, and the next one is held against the one that stands', async () => {
    const id = await draft();
    await withdrawRelease(staff, { number: 2, note: 'An invented reason.', at: '2026-03-02T00:00:00Z' });
    await expect(publishDraft(staff, { id, ...BO })).rejects.toThrow(/has changed since this draft/);
    expect((await latestRelease(published))!.number).toBe(1);
    const anew = await draft();
    const { number, report } = (await readDraft<FullDraftReport>(staff, anew))!;
    expect(number).toBe(3);
    expect(report.changes).toMatchObject({ since: { number: 1 } });
    expect(await publishDraft(staff, { id: anew, ...BO })).toBe(3);
    expect((await latestRelease(published))!.number).toBe(3);
  });
});
