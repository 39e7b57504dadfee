import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

/** Content codings that the site sends, the better first. */
export const ENCODINGS = ['br', 'gzip'] as const;

export type Encoding = (typeof ENCODINGS)[number];

/** Compressed bytes; `effort` 0–11 for brotli, 1–9 for gzip, where more counts as 9. Works beside the main thread. */
export async function encode(bytes: Uint8Array, encoding: Encoding, effort: number): Promise<Buffer> {
  if (encoding === 'gzip') return promisify(gzip)(bytes, { level: Math.min(effort, 9) });
  return promisify(brotliCompress)(bytes, {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: effort,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.byteLength,
    },
  });
}
