import { createHash } from 'node:crypto';

export interface ReleaseFile {
  name: string;
  mediaType: string;
  sha256: string;
  bytes: Buffer;
}

/** A file with its sum; a text is written as UTF-8 without a mark. */
export function releaseFile(name: string, mediaType: string, content: string | Uint8Array): ReleaseFile {
  const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : Buffer.from(content);
  return { name, mediaType, bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
}

/** JSON as release files hold it: one blank of indent, a last line end. */
export function jsonFile(name: string, mediaType: string, value: unknown): ReleaseFile {
  return releaseFile(name, mediaType, `${JSON.stringify(value, null, 1)}\n`);
}
