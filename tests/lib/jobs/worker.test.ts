import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { queueOn } from '@/db/queue';
import { listAnalyses } from '@/db/repositories/analyses';
import { cancelJob, type Job, readJob } from '@/db/repositories/jobs';
import { setProgramme } from '@/db/repositories/programme';
import { storeSheet } from '@/db/repositories/sheets';
import { enqueue } from '@/lib/jobs/enqueue';
import { type RunningWorker, startWorker } from '@/lib/jobs/start-worker';
import { judged, sheetOf } from '../../db/invented';
import { type TestDatabase, testDatabase } from '../../support/database';

let database: TestDatabase;
let staff: StaffDatabase;
const workers: RunningWorker[] = [];

beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
});

afterEach(async () => {
  for (const worker of workers.splice(0)) await worker.stop();
});

afterAll(async () => {
  await closeClient(staff);
  await database.drop();
});

const MINUTE = { timeout: 90_000, interval: 100 };

async function work(over: { everyMs?: number; graceMs?: number } = {}): Promise<RunningWorker> {
  const worker = await startWorker({ staffUrl: database.staffUrl, everyMs: 200, ...over });
  workers.push(worker);
  return worker;
}

const ask = (by = 'Ada Invented') => enqueue(staff, { kind: 'analysis', request: {}, by, personId: null });
const read = async (id: string) => (await readJob(staff, id))!;
const until = (id: string, state: Job['state']) =>
  expect.poll(async () => (await read(id)).state, MINUTE).toBe(state);

async function someResults(): Promise<void> {
  const founding = { name: 'Invented programme', regionName: 'Nebraska', laboratory: 'Invented Laboratory' };
  await setProgramme(staff, { ...founding, states: ['NE'], simulated: true });
  const records = Array.from({ length: 30 }, (_, i) =>
    judged(i + 1, { county: ['31109', '31155', '31025'][i % 3], season: 2022 + (i % 2) }),
  );
  await storeSheet(staff, { sheet: sheetOf('a'), records: [records] as never, dryRun: false });
}

/** Runs `during` while an analysis cannot go on, so that what happens meanwhile does not hang on how fast it is. */
async function heldUp(during: (release: () => void) => Promise<void>): Promise<void> {
  await staff.$client.begin(async (sql) => {
    await sql`select pg_advisory_xact_lock(hashtext('fencerow.analysis'))`;
    let go = () => {};
    const released = new Promise<void>((resolve) => {
      go = resolve;
    });
    await Promise.race([during(go), released]);
  });
}

it('the queue keeps itself in order over our own connections', async () => {
  const queue = queueOn(staff.$client, { work: true });
  await queue.maintain();
  await queue.stop({ graceful: false, wait: false });
});

describe('a job', () => {
  it('fails with the words of an error that a person can put right, and is not tried again', async () => {
    await work();
    const id = await ask();
    await until(id, 'failed');
    const { message, attempts, by } = await read(id);
    expect(message).toContain('Import a sheet first');
    expect({ attempts, by }).toEqual({ attempts: 1, by: 'Ada Invented' });
  });

  it('is carried out in a process of its own, and says how far it is and what came of it', async () => {
    await someResults();
    await work();
    const id = await ask();
    await until(id, 'done');
    const job = await read(id);
    const [analysis] = await listAnalyses(staff);
    expect(job.outcome).toEqual({ id: analysis!.id, parts: analysis!.parts, reused: 0, resumed: 0 });
    expect(job).toMatchObject({ done: analysis!.parts, whole: analysis!.parts, attempts: 1 });
  });

  it('that must be alone is refused beside another one, with the name of who asked', async () => {
    const id = await ask('Ada Invented');
    await expect(ask('Bo Invented')).rejects.toThrow(/^Ada Invented has asked for this already/);
    await cancelJob(staff, { id, by: 'Bo Invented' });
    expect(await read(id)).toMatchObject({ state: 'cancelled', cancelledBy: 'Bo Invented' });
    await expect(cancelJob(staff, { id, by: 'Bo Invented' })).rejects.toThrow(/no such job/);
    await work();
    const next = await ask('Bo Invented');
    await until(next, 'done');
    expect((await read(id)).attempts).toBe(0);
  });

  it('that runs ends when somebody cancels it', async () => {
    await work();
    await heldUp(async () => {
      const id = await ask();
      await until(id, 'running');
      await cancelJob(staff, { id, by: 'Bo Invented' });
      await until(id, 'cancelled');
    });
  });

  it('whose worker is stopped is begun anew by the next one', async () => {
    const first = await work();
    let id = '';
    await heldUp(async () => {
      id = await ask();
      await until(id, 'running');
      await first.stop();
      workers.length = 0;
    });
    await work();
    await until(id, 'done');
    expect((await read(id)).attempts).toBe(2);
  });

  it('whose worker was killed is found and begun anew', async () => {
    let id = '';
    await heldUp(async () => {
      const env = { ...process.env, FENCEROW_STAFF_URL: database.staffUrl };
      const command = spawn(process.execPath, ['--import', 'tsx', 'scripts/worker.ts'], {
        env,
        stdio: 'ignore',
      });
      id = await ask();
      await until(id, 'running');
      command.kill('SIGKILL');
      await once(command, 'exit');
    });
    await work({ graceMs: 0 });
    await until(id, 'done');
    expect((await read(id)).attempts).toBeGreaterThan(1);
  });
});
