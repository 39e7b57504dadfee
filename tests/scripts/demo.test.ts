import { spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { expectedHome } from '@/db/server/home';
import { ownServerStatus } from '@/db/server/own';
import { SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-demo-'));
  chmodSync(folder, 0o755);
});
afterAll(() => {
  for (const path of [expectedHome(folder), folder]) rmSync(path, { recursive: true, force: true });
});

it('npm run demo goes from an empty folder to a page, tells its progress, and stops all that it started', async () => {
  const demo = spawn(
    process.execPath,
    ['--import', 'tsx', 'scripts/demo.ts', '--size', 'small', '--port', '0', '--staff-port', '0'],
    {
      env: { ...process.env, FENCEROW_DATA: folder, DATABASE_URL: '', NODE_ENV: 'production' },
    },
  );
  const ended = new Promise<number | null>((resolve) => demo.once('close', resolve));
  let progress = '';
  demo.stderr.on('data', (text) => {
    progress += String(text);
  });
  let out = '';
  const address = await new Promise<string>((resolve, reject) => {
    demo.stdout.on('data', (text) => {
      out += String(text);
      const [, url] = /^Open (http:\S+)/m.exec(out) ?? [];
      if (url) resolve(url);
    });
    ended.then(() => reject(new Error(`the demonstration ended early:\n${progress}`)));
  });
  try {
    for (const stage of ['site', 'database', 'simulated sheets', 'import', 'release']) {
      expect(progress).toMatch(new RegExp(`^  ${stage}: .*s$`, 'm'));
    }
    const page = await (await fetch(address)).text();
    expect(page).toContain(SIMULATED_NOTICE);
    expect(page).toContain('<svg');
    // Staff have a process of their own; the public site knows nothing of their pages.
    const [, side] = /^Staff side: (http:\S+)\/staff/m.exec(out) ?? [];
    expect((await fetch(`${side}/staff/sign-in`)).status).toBe(200);
    expect((await fetch(`${address}/staff/sign-in`)).status).toBe(404);
    expect(out.match(/@example\.org +password \S{16}$/gm)).toHaveLength(4);
    const sheets = join(folder, 'demo', 'small-1');
    expect(readdirSync(sheets)).toContain('simulated-2024.csv');
    expect(JSON.parse(readFileSync(join(sheets, 'truth.json'), 'utf8'))).toHaveProperty('seed', 1);
  } finally {
    demo.kill('SIGINT');
  }
  expect(await ended).toBe(0);
  expect(ownServerStatus(folder)).toBeNull();
});
