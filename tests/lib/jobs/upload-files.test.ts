import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { keepFile, largestUpload, removeFile, uploadPath } from '@/lib/jobs/upload-files';

let folder: string;
let env: Record<string, string>;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-kept-'));
  env = { FENCEROW_UPLOADS: folder, FENCEROW_LARGEST_UPLOAD: '0.001' };
});
afterEach(() => rmSync(folder, { recursive: true }));

it('a file is kept byte by byte under an id of its own, with its hash, and can be removed twice', async () => {
  const bytes = Buffer.from('Sample #,County\nA-1,Lancaster\n');
  const kept = await keepFile(Readable.from([bytes.subarray(0, 5), bytes.subarray(5)]), env);
  expect(readFileSync(uploadPath(kept.id, env))).toEqual(bytes);
  expect(kept).toMatchObject({
    bytes: bytes.length,
    sha256: createHash('sha256').update(bytes).digest('hex'),
  });
  await removeFile(kept.id, env);
  await removeFile(kept.id, env);
  expect(readdirSync(folder)).toEqual([]);
});

it.each([
  ['too large', [Buffer.alloc(600), Buffer.alloc(600)], /larger than 0.001 MB/],
  ['empty', [], /empty/],
])('a file that is %s leaves nothing behind', async (_, pieces, words) => {
  await expect(keepFile(Readable.from(pieces), env)).rejects.toThrow(words);
  expect(readdirSync(folder)).toEqual([]);
});

it('a file that breaks off leaves nothing behind', async () => {
  const breaking = new Readable({
    read() {
      this.push('Sample #');
      this.destroy(new Error('cut off'));
    },
  });
  await expect(keepFile(breaking, env)).rejects.toThrow('cut off');
  expect(readdirSync(folder)).toEqual([]);
});

it('the largest size is 500 MB unless somebody says otherwise', () => {
  expect([largestUpload({}), largestUpload({ FENCEROW_LARGEST_UPLOAD: 'many' })]).toEqual([5e8, 5e8]);
  expect(largestUpload({ FENCEROW_LARGEST_UPLOAD: '20' })).toBe(2e7);
});
