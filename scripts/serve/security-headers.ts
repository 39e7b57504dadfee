import { createHash } from 'node:crypto';

/** Sent with every response. */
export const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), geolocation=(), microphone=(), payment=(), usb=()',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/** For whatever is no page: it may load nothing. */
export const CLOSED_POLICY =
  "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

/**
 * Content-Security-Policy of one page: its own inline scripts by their SHA-256, all else from this server alone, and
 * no inline style. Images may be `data:` and `blob:` (textures of the live map).
 */
export function contentSecurityPolicy(html: string): string {
  const hashes = [...new Set(inlineScripts(html).map(sha256))].map((hash) => `'sha256-${hash}'`);
  return [
    "default-src 'none'",
    `script-src 'self' ${hashes.join(' ')}`.trimEnd(),
    "style-src 'self'",
    "img-src 'self' data: blob:",
    "connect-src 'self'",
    "font-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ');
}

/**
 * The scripts in the page itself that the framework writes: hand-overs of plain data, and nothing that could compute.
 * Any other, which only an injection could have brought, gets no hash and does not run.
 */
function inlineScripts(html: string): string[] {
  return [...html.matchAll(/<script(?![^>]*\ssrc=)[^>]*>([\s\S]*?)<\/script>/gi)]
    .map(([, code]) => code!)
    .filter((code) => HAND_OVERS.some(([before, after]) => isHandOver(code, before, after)));
}

/** What stands before and after the data, which must be one JSON value. */
const HAND_OVERS: readonly (readonly [before: string, after: string])[] = [
  ['(globalThis["TURBOPACK"] || (globalThis["TURBOPACK"] = [])).push(', ');'],
  ['(self.__next_f=self.__next_f||[]).push(', ')'],
  ['self.__next_f.push(', ')'],
];

function isHandOver(code: string, before: string, after: string): boolean {
  if (!code.startsWith(before) || !code.endsWith(after)) return false;
  try {
    JSON.parse(code.slice(before.length, code.length - after.length));
    return true;
  } catch {
    return false;
  }
}

function sha256(code: string): string {
  return createHash('sha256').update(code, 'utf8').digest('base64');
}
