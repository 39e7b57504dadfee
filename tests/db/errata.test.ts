import { createHash } from 'node:crypto';
import postgres, { type Sql } from 'postgres';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  closeClient,
  type PublicDatabase,
  publicClient,
  type StaffDatabase,
  staffClient,
} from '@/db/clients';
import { addErratum } from '@/db/repositories/errata';
import { readHistory } from '@/db/repositories/history';
import { erratumFile, listReleases, releaseErrata, releaseFile } from '@/db/repositories/published';
import { saveRelease, withdrawRelease } from '@/db/repositories/releases';
import { type TestDatabase, testDatabase } from '../support/database';
import { CLEAN, draftOf } from './invented';

// The releases and their errors are invented.
let database: TestDatabase;
let staff: StaffDatabase;
let everybody: PublicDatabase;
let owner: Sql;
let number: number;
const BYTES = Buffer.from('place,tested\n');
const save = () =>
  saveRelease(staff, {
    draft: draftOf([]),
    audit: CLEAN,
    files: () => [{ name: 'README.md', mediaType: 'text/markdown', bytes: BYTES }],
  });
const WORDS = 'Samples of 2021 were put down to the wrong county. Use release 2 for that season.';
const add = (over: object = {}) =>
  addErratum(staff, { release: number, date: '2026-03-01', text: WORDS, by: 'publisher', ...over });

beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  everybody = publicClient(database.publicUrl);
  owner = postgres(database.ownerUrl, { max: 1, onnotice: () => {} });
  number = await save();
  await add();
});
afterAll(async () => {
  await Promise.all([closeClient(staff), closeClient(everybody), owner.end()]);
  await database.drop();
});

describe('an erratum', () => {
  it('is read by the public with its file and a sum that is right, and leaves the files of the release as they were', async () => {
    const [erratum] = await releaseErrata(everybody, number);
    expect(erratum).toMatchObject({ number: 1, date: '2026-03-01', text: WORDS });
    const { name, sha256 } = erratum!.file;
    expect(name).toMatch(new RegExp(`^fencerow-release-${number}.*-erratum-1\\.md$`));
    const file = (await erratumFile(everybody, number, name))!;
    expect(file.bytes.toString('utf8')).toContain(WORDS);
    expect(createHash('sha256').update(file.bytes).digest('hex')).toBe(sha256);
    const sum = (await erratumFile(everybody, number, `${name}.sha256`))!;
    expect(sum.bytes.toString('utf8')).toBe(`${sha256}  ${name}\n`);
    expect((await releaseFile(everybody, number, 'README.md'))!.bytes).toEqual(BYTES);
    expect((await listReleases(everybody))[0]!.errata).toEqual([erratum]);
  });

  it('is numbered within its release, and the same text is refused', async () => {
    const other = await save();
    expect(await add({ release: other })).toMatchObject({ number: 1 });
    expect(await add({ release: other, text: 'Another fault.' })).toMatchObject({ number: 2 });
    await expect(add({ release: other })).rejects.toThrow('this very text');
    expect(await releaseErrata(everybody, other)).toHaveLength(2);
  });

  it('names who wrote it to the staff alone', async () => {
    const written = (await readHistory(staff)).find(
      ({ what, after }) => what === 'erratum added' && (after as { release: number }).release === number,
    );
    expect(written).toMatchObject({ by: 'publisher', after: { number: 1, text: WORDS } });
    const rows = await everybody.$client`select * from release.erratum`;
    expect(JSON.stringify([...rows])).not.toContain('publisher');
  });

  it('never changes and never goes, not even by the owner', async () => {
    for (const change of [
      `update release.erratum set text = 'x'`,
      'delete from release.erratum',
      'truncate release.erratum',
    ])
      await expect(owner.unsafe(change), change).rejects.toMatchObject({ code: '23001' });
  });

  it('is refused to a release that is not there, and to a withdrawn one, whose notes stay in the list alone', async () => {
    await expect(add({ release: 99 })).rejects.toThrow('There is no release 99. Name one of these: 1, 2.');
    const withdrawn = await save();
    const { file } = await add({ release: withdrawn });
    await withdrawRelease(staff, {
      number: withdrawn,
      note: 'Wrong.',
      at: '2026-03-02T00:00:00Z',
      by: 'publisher',
    });
    await expect(add({ release: withdrawn, text: 'More.' })).rejects.toThrow('withdrawn on 2026-03-02');
    expect(await releaseErrata(everybody, withdrawn)).toEqual([]);
    expect(await erratumFile(everybody, withdrawn, file)).toBeNull();
    const [listed] = await listReleases(everybody);
    expect(listed).toMatchObject({
      number: withdrawn,
      withdrawn: { note: 'Wrong.' },
      errata: [{ number: 1 }],
    });
    expect(await readHistory(staff)).toContainEqual(
      expect.objectContaining({ what: 'release withdrawn', by: 'publisher', why: 'Wrong.' }),
    );
  });
});
