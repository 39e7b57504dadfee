import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';
import { ENCODINGS, type Encoding, encode } from '@/db/encoding';

/** A file of the build as it is sent: plain, and under each encoding that makes it smaller. */
export interface StaticFile {
  type: string;
  plain: Buffer;
  encoded: Partial<Record<Encoding, Buffer>>;
}

const TYPES: Record<string, string> = {
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
};
/** The build copies the map library's whole folder; only its worker is ever asked for from there. */
const BYCATCH = /^maplibre-gl(?!-worker\.).*\.(mjs|css)$/;
const BEST = 11;

/** Compresses every file of the build once, at the best level, beside the build and named by content. */
export async function compressStatic(root: string): Promise<void> {
  mkdirSync(compressedFolder(root), { recursive: true });
  await Promise.all(
    staticPaths(root).map(async (path) => {
      const plain = readFileSync(path);
      for (const encoding of ENCODINGS) {
        const target = compressedPath(root, plain, encoding);
        if (!existsSync(target)) writeFileSync(target, await encode(plain, encoding, BEST));
      }
    }),
  );
}

/** All static files of the build by the path of their address; nothing else can be asked for. */
export function loadStatic(root: string): Map<string, StaticFile> {
  return new Map(
    staticPaths(root).map((path) => {
      const plain = readFileSync(path);
      const encoded: StaticFile['encoded'] = {};
      for (const encoding of ENCODINGS) {
        const source = compressedPath(root, plain, encoding);
        const bytes = existsSync(source) ? readFileSync(source) : plain;
        if (bytes.length < plain.length) encoded[encoding] = bytes;
      }
      const address = relative(staticFolder(root), path).split(sep).map(encodeURIComponent).join('/');
      const type = TYPES[extname(path)] ?? 'application/octet-stream';
      return [`/_next/static/${address}`, { type, plain, encoded }] as const;
    }),
  );
}

function staticPaths(root: string): string[] {
  return readdirSync(staticFolder(root), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && !BYCATCH.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}

function staticFolder(root: string): string {
  return join(root, '.next', 'static');
}

function compressedFolder(root: string): string {
  return join(root, '.next', 'compressed');
}

function compressedPath(root: string, plain: Buffer, encoding: Encoding): string {
  return join(compressedFolder(root), `${createHash('sha256').update(plain).digest('hex')}.${encoding}`);
}
