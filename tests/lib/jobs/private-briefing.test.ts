import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { confirmFirstFinds, listFirstFinds } from '@/db/repositories/first-finds';
import { readHistory } from '@/db/repositories/history';
import { closeSeason, getProgramme, setProgramme } from '@/db/repositories/programme';
import { reportResults } from '@/db/repositories/reported';
import { storeSheet } from '@/db/repositories/sheets';
import { briefingOf, makeBriefing } from '@/lib/briefing/make-briefing';
import type { BriefingNumbers } from '@/lib/briefing/types';
import { type PrivateBriefingOrder, readPrivateBriefing } from '@/lib/jobs/private-briefing';
import { runAnalysis } from '@/lib/jobs/run-analysis';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { judged, sheetOf } from '../../db/invented';
import { type TestDatabase, testDatabase } from '../../support/database';
import { readPdf } from '../../support/read-pdf';
import { databaseEnvironment, runCommand } from '../../support/run-command';

/**
 * Invented: kochia and group 9 from three counties of Nebraska in 2022 to 2024, four populations each a season. From wheat the
 * odd ones are resistant, from corn none. One more came without viable seed. All were received on September 21 of
 * 2024 and told on the day 100 days later.
 */
const COUNTIES = ['31109', '31055', '31153'];
const SEASONS = [2022, 2023, 2024];
const ROWS = SEASONS.flatMap((season) =>
  COUNTIES.flatMap((county) => [0, 1, 2, 3].map((k) => ({ season, county, k }))),
);

let database: TestDatabase;
let db: StaffDatabase;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-briefing-'));
  database = await testDatabase();
  db = staffClient(database.staffUrl);
  const named = { name: 'Invented', regionName: 'Invented basin', laboratory: 'Invented Laboratory' };
  await setProgramme(db, { ...named, states: ['NE'], simulated: true });
  const records = ROWS.map(({ season, county, k }, i) => {
    const isWheat = k < 2;
    const isResistant = isWheat && k === 1;
    return judged(i + 1, {
      ...{ season, county, crop: isWheat ? 'wheat' : 'corn' },
      ...{
        funder: isWheat ? 'wheat board (invented)' : 'corn board (invented)',
        operation: `SECRET-FARM-${i}`,
      },
      ...(isResistant ? {} : { alive: 0, result: 'susceptible' as const }),
    });
  });
  const bad = judged(ROWS.length + 1, {
    outcome: 'refused',
    kind: 'not testable',
    treated: null,
    alive: null,
    result: null,
  });
  await storeSheet(db, { sheet: sheetOf('a'), records: [...records, bad] });
  await confirmFirstFinds(db, {
    ids: (await listFirstFinds(db)).map(({ id }) => id),
    ...{ by: 'a test', why: 'invented second run' },
  });
  for (const season of SEASONS) await reportResults(db, { season, on: '2024-12-30', by: 'a test' });
  for (const season of SEASONS) await closeSeason(db, { year: season, at: '2026-02-01T00:00:00Z' });
  await runAnalysis(db, { programme: (await getProgramme(db))!, by: 'a test', threads: 1 });
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
  rmSync(folder, { recursive: true, force: true });
});

async function read(over: Partial<PrivateBriefingOrder> = {}) {
  const wish = { species: 'KCHSC', groups: ['9'], districts: [] };
  const programme = (await getProgramme(db))!;
  return readPrivateBriefing(db, { programme, wish, crop: null, funder: null, date: '2026-02-10', ...over });
}
async function numbersOf(over: Partial<PrivateBriefingOrder> = {}): Promise<BriefingNumbers> {
  const numbers = await read(over);
  if ('problem' in numbers) throw new Error(numbers.problem);
  return numbers;
}

describe('a private briefing', () => {
  it('counts everything exactly, small counts too', async () => {
    const { groups, effort } = await numbersOf();
    const [group] = groups;
    expect(group!.whole.counted).toMatchObject({
      tested: 36,
      resistant: 9,
      share: 0.25,
      ...wilsonInterval(9, 36),
    });
    expect(group!.receipt).toEqual({ received: 37, testable: 36 });
    expect(group!.places.find(({ key }) => key === '31055')?.counted).toMatchObject({
      tested: 12,
      resistant: 3,
    });
    expect(group!.series.map(({ tested, resistant }) => [tested, resistant])).toEqual([
      [12, 3],
      [12, 3],
      [12, 3],
    ]);
    expect(effort.counties).toEqual({ screened: 3, of: 93 });
  });

  it('tells what each board paid for, and how many days a result took', async () => {
    const { effort } = await numbersOf();
    expect(effort.bySource).toEqual([
      { crop: 'corn', funder: 'corn board (invented)', received: 18, tested: 18, counties: 3 },
      { crop: 'wheat', funder: 'wheat board (invented)', received: 18, tested: 18, counties: 3 },
      { crop: 'wheat', funder: 'funder not told', received: 1, tested: 0, counties: 0 },
    ]);
    expect(effort.days).toEqual({ samples: 37, median: 100, low: 100, high: 100 });
  });

  it('counts a crop or a funder alone, and says so', async () => {
    const corn = await numbersOf({ crop: 'CORN' });
    expect(corn.groups[0]!.whole.counted).toMatchObject({ tested: 18, resistant: 0 });
    const wheat = await numbersOf({ funder: 'wheat board (invented)' });
    expect(wheat.groups[0]!.whole.counted).toMatchObject({ tested: 18, resistant: 9 });
    expect(briefingOf(corn).headlines[0]!.computed).toContain('fields of corn');
    expect(await read({ crop: 'rye' })).toEqual({
      problem: 'No sample has the crop “rye”. There are: corn, wheat.',
    });
  });

  it('lists where to look next, from the last analysis', async () => {
    const { groups, source } = await numbersOf();
    expect(source).toMatchObject({ kind: 'private', analysis: expect.any(Number), held: 0 });
    expect(groups[0]!.lookNext!.places.length).toBe(90);
  });

  it('says on each page and slide that it is not for distribution, and names no operation', async () => {
    const briefing = briefingOf(await numbersOf());
    const pdf = await readPdf(await makeBriefing(briefing, 'pdf'));
    expect(pdf.pages).toHaveLength(2);
    for (const { text } of pdf.pages) expect(text).toContain('Not for distribution · Simulated data');
    expect(pdf.pages.map(({ text }) => text).join(' ')).toMatch(
      /100 days in the middle of 37 samples.*Where to look next/s,
    );
    const parts = unzipSync(await makeBriefing(briefing, 'pptx'));
    const slides = Object.entries(parts).filter(([name]) => /^ppt\/slides\/slide\d+\.xml$/.test(name));
    expect(slides.length).toBeGreaterThan(8);
    for (const [, xml] of slides)
      expect(Buffer.from(xml).toString()).toContain('Not for distribution · Simulated data');
    for (const xml of Object.values(parts)) expect(Buffer.from(xml).toString()).not.toContain('SECRET');
    expect(pdf.pages.map(({ text }) => text).join(' ')).not.toContain('SECRET');
  });
});

describe('the command', () => {
  const run = (...words: string[]) => runCommand('briefing.ts', words, databaseEnvironment(database));

  it('prints headlines, takes them back worded, and writes down who worded what', async () => {
    const printed = await run('--private', '--species', 'kochia', '--group', '9');
    const sentences = JSON.parse(printed.out) as Record<string, string>;
    expect(sentences['found-9']).toContain('9 of 36 kochia populations');
    const file = join(folder, 'sentences.json');
    writeFileSync(
      file,
      JSON.stringify({ ...sentences, 'found-9': 'A quarter was resistant (invented words).' }),
    );
    const out = join(folder, 'private.pdf');
    const made = await run(
      '--private',
      '--species',
      'kochia',
      '--sentences',
      file,
      '--by',
      'a test',
      '--out',
      out,
    );
    expect(made).toMatchObject({ code: 0, out: expect.stringContaining('not for distribution') });
    const pdf = await readPdf(readFileSync(out));
    expect(pdf.pages[0]!.text).toContain('A quarter was resistant (invented words). †');
    const [line] = await readHistory(db, { limit: 1 });
    expect(line).toMatchObject({
      ...{ what: 'briefing worded', by: 'a test' },
      before: { 'found-9': sentences['found-9'] },
      after: { 'found-9': 'A quarter was resistant (invented words).' },
    });
  });

  it('refuses in words what a release does not hold, a sentence that there is not, and another kind of file', async () => {
    const refused = async (...words: string[]) => (await run(...words)).err;
    expect(await refused('--crop', 'wheat')).toContain('A release tells nothing by crop or by funder.');
    expect(await refused('--private', '--out', 'briefing.docx')).toContain('--out ends in .pdf or .pptx');
    const file = join(folder, 'unknown.json');
    writeFileSync(file, '{"found-99":"x"}');
    expect(await refused('--private', '--species', 'kochia', '--sentences', file)).toContain(
      'There is no sentence “found-99”. There are: found-9, where-9',
    );
  });
});
