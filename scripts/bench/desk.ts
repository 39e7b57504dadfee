import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { countResults, listResults, type ResultQuery } from '@/db/repositories/results';
import { ownServerStatus } from '@/db/server/own';
import type { Benchmark } from '../bench';
import { type Steps, startSteps } from '../support/steps';
import { deskQueries } from './desk/desk-queries';
import { deskViews } from './desk/desk-views';
import { fillDesk } from './desk/fill-desk';
import { cpuTime } from './intake/cpu-time';

const ROWS = Number(process.env.FENCEROW_BENCH_ROWS ?? 1_000_000);
const ROUNDS = 20;
const VIEW_ROUNDS = 5;
/** Rows on a page, and up to where they are counted: as the results table asks. */
const [PAGE, MOST] = [50, 500];

/**
 * What the results table and the private map wait for at a million rows, from the moment at which the last sheet is in:
 * each typical question asked for its first page, for the next one and for its count, and each view read, as milliseconds
 * at the 50th and the 95th hundredth of all answers, and as milliseconds that node and the server computed, which says
 * more where the machine has other work.
 */
export const desk: Benchmark = {
  about: `The results table and the private map over ${ROWS.toLocaleString('en')} invented rows (FENCEROW_BENCH_ROWS), FENCEROW_BENCH_DATA keeps them`,
  async run() {
    const steps = startSteps();
    const kept = process.env.FENCEROW_BENCH_DATA;
    const data = kept ?? join(mkdtempSync(join(tmpdir(), 'fencerow-bench-')), 'data');
    const database = await openDatabase({
      env: { ...process.env, FENCEROW_DATA: data, DATABASE_URL: undefined },
    });
    const db = staffClient(database.staffUrl);
    try {
      if (await isEmpty(db)) await steps.run('sheets imported', () => fillDesk(db, ROWS));
      await counted(db);
      const server = ownServerStatus(data)!.pid;
      await asked(db, steps, server);
      await viewed(db, steps, server);
      return [...steps.done];
    } finally {
      await closeClient(db);
      await database.stop();
      if (kept === undefined) rmSync(join(data, '..'), { recursive: true, force: true });
    }
  },
};

async function isEmpty(db: StaffDatabase): Promise<boolean> {
  return (await db.$client`select from surveillance.test limit 1`).count === 0;
}

async function counted(db: StaffDatabase): Promise<void> {
  const [row] = await db.$client<{ rows: number }[]>`select count(*)::int as rows from surveillance.test`;
  process.stderr.write(`  ${row!.rows.toLocaleString('en')} results\n`);
}

async function asked(db: StaffDatabase, steps: Steps, server: number): Promise<void> {
  const questions = deskQueries();
  const all: Record<'typical' | 'seldom', number[]> = { typical: [], seldom: [] };
  for (const { name, query, isSeldom } of questions) {
    const whole = { ...query, after: null, limit: PAGE };
    const times: number[] = [];
    await steps.run(name, async (detail) => {
      const before = cpuTime(server);
      let rows = 0;
      for (let round = 0; round < ROUNDS; round++) rows = await once(db, whole, times);
      detail(`${rows} rows, ${words(times)}, ${computed(server, before, times.length)}`);
    });
    all[isSeldom ? 'seldom' : 'typical'].push(...times);
  }
  await steps.run('all typical questions', (detail) => detail(words(all.typical)));
  await steps.run('questions asked seldom', (detail) => detail(words(all.seldom)));
}

async function viewed(db: StaffDatabase, steps: Steps, server: number): Promise<void> {
  const all: number[] = [];
  for (const { name, read } of await deskViews(db)) {
    const times: number[] = [];
    await steps.run(name, async (detail) => {
      const before = cpuTime(server);
      let found = '';
      for (let round = 0; round < VIEW_ROUNDS; round++) found = await timed(read(), times);
      detail(`${found}, ${words(times)}, ${computed(server, before, times.length)}`);
    });
    all.push(...times);
  }
  await steps.run('all views', (detail) => detail(words(all)));
}

function computed(server: number, before: ReturnType<typeof cpuTime>, answers: number): string {
  const { own, server: theirs } = cpuTime(server);
  const each = ((own + theirs - before.own - before.server) / answers) * 1000;
  return `computed ${each.toFixed(1)} ms each`;
}

async function timed<T>(work: Promise<T>, times: number[]): Promise<T> {
  const since = performance.now();
  const result = await work;
  times.push(performance.now() - since);
  return result;
}

/** First page, next page, count: each timed by itself. */
async function once(db: StaffDatabase, query: ResultQuery, times: number[]): Promise<number> {
  const first = await timed(listResults(db, query), times);
  if (first.next) await timed(listResults(db, { ...query, after: first.next }), times);
  await timed(countResults(db, query.filter, MOST), times);
  return first.rows.length;
}

function words(times: readonly number[]): string {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!.toFixed(1);
  return `p50 ${at(0.5)} ms, p95 ${at(0.95)} ms, longest ${sorted.at(-1)!.toFixed(1)} ms`;
}
