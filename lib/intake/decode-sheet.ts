import { HEAD_BYTES, sniffEncoding } from './sniff-encoding';

export type ByteSource = Uint8Array | AsyncIterable<Uint8Array>;

/**
 * The text of a sheet: UTF-8 with or without mark, UTF-16 of either byte order with or without mark, or Windows-1252
 * where the bytes cannot be UTF-8. Bytes that fit neither become U+FFFD, which condemns their row later.
 *
 * @throws SheetError as `sniffEncoding`
 */
export function decodeSheet(bytes: Uint8Array): string {
  const decoder = createDecoder(sniffEncoding(bytes.subarray(0, HEAD_BYTES)));
  return decoder.write(bytes) + decoder.end();
}

/** The same, piece by piece, in memory for one piece. */
export async function* decodeStream(source: ByteSource): AsyncGenerator<string> {
  if (source instanceof Uint8Array) {
    yield decodeSheet(source);
    return;
  }
  let head: Uint8Array[] = [];
  let size = 0;
  let decoder: Decoder | null = null;
  for await (const chunk of source) {
    if (decoder) {
      yield decoder.write(chunk);
      continue;
    }
    head.push(chunk);
    size += chunk.length;
    if (size < HEAD_BYTES) continue;
    decoder = createDecoder(sniffEncoding(joined(head, size).subarray(0, HEAD_BYTES)));
    yield decoder.write(joined(head, size));
    head = [];
  }
  if (decoder) yield decoder.end();
  else yield decodeSheet(joined(head, size));
}

interface Decoder {
  write(bytes: Uint8Array): string;
  end(): string;
}

function createDecoder(encoding: ReturnType<typeof sniffEncoding>): Decoder {
  if (encoding !== 'utf-8 or windows-1252') {
    const decoder = new TextDecoder(encoding);
    return { write: (bytes) => decoder.decode(bytes, { stream: true }), end: () => decoder.decode() };
  }
  return createEightBitDecoder();
}

/** UTF-8 until a byte shows that it is not. Up to there all was ASCII, which Windows-1252 reads alike, or it was UTF-8. */
function createEightBitDecoder(): Decoder {
  let decoder = new TextDecoder('utf-8', { fatal: true });
  let settled = false;
  let rest: Uint8Array = new Uint8Array();
  let sawUtf8 = false;

  const settle = (label: string) => {
    decoder = new TextDecoder(label);
    settled = true;
  };
  const decode = (bytes: Uint8Array) => {
    try {
      const text = decoder.decode(bytes);
      sawUtf8 ||= text.length < bytes.length;
      return text;
    } catch {
      settle(sawUtf8 || hasUtf8Pair(bytes) ? 'utf-8' : 'windows-1252');
      return decoder.decode(bytes, { stream: true });
    }
  };
  return {
    write(bytes) {
      if (settled) return decoder.decode(bytes, { stream: true });
      const all = rest.length === 0 ? bytes : joined([rest, bytes], rest.length + bytes.length);
      const cut = all.length - unfinished(all);
      rest = all.slice(cut);
      const text = decode(all.subarray(0, cut));
      if (!settled) return text;
      const after = decoder.decode(rest, { stream: true });
      rest = new Uint8Array();
      return text + after;
    },
    end() {
      const text = rest.length > 0 && !settled ? decode(rest) : '';
      return settled ? text + decoder.decode() : text;
    },
  };
}

/** Bytes at the end that begin a UTF-8 character whose remainder has not come yet: 0 to 3. */
function unfinished(bytes: Uint8Array): number {
  for (let back = 1; back <= Math.min(3, bytes.length); back++) {
    const byte = bytes[bytes.length - back]!;
    if (byte < 0x80) return 0;
    if (byte >= 0xc0) return back < (byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2) ? back : 0;
  }
  return 0;
}

/** Whether a lead byte and a continuation byte stand together: rare in Windows-1252, the rule in UTF-8. */
function hasUtf8Pair(bytes: Uint8Array): boolean {
  for (let i = 1; i < bytes.length; i++) {
    const lead = bytes[i - 1]!;
    if (lead >= 0xc2 && lead <= 0xf4 && bytes[i]! >= 0x80 && bytes[i]! <= 0xbf) return true;
  }
  return false;
}

function joined(chunks: readonly Uint8Array[], size: number): Uint8Array {
  if (chunks.length === 1) return chunks[0]!;
  const all = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}
