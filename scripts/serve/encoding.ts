import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

export type Encoding = 'br' | 'gzip';

/** The best encoding that the client accepts, or null. */
export function chooseEncoding(acceptEncoding: string | undefined): Encoding | null {
  const accepted = new Map(
    (acceptEncoding ?? '').split(',').map((part) => {
      const [name, ...parameters] = part.trim().toLowerCase().split(';');
      const quality = parameters.map((text) => text.trim()).find((text) => text.startsWith('q='));
      return [name, quality ? Number(quality.slice(2)) : 1] as const;
    }),
  );
  for (const encoding of ['br', 'gzip'] as const) if ((accepted.get(encoding) ?? 0) > 0) return encoding;
  return null;
}

/** Compressed bytes; `effort` 0–11 for brotli, capped at 9 for gzip. */
export async function encode(bytes: Uint8Array, encoding: Encoding, effort: number): Promise<Buffer> {
  if (encoding === 'gzip') return promisify(gzip)(bytes, { level: Math.min(effort, 9) });
  return promisify(brotliCompress)(bytes, {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: effort,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.byteLength,
    },
  });
}
