import type { IncomingMessage } from 'node:http';
import { CLIENT_ADDRESS } from '@/lib/access/auth';

/** Which site a process serves. They are one build; each process answers one of them. */
export type Side = 'public' | 'staff';

/** A short answer to what is not answered. */
export interface Refusal {
  status: number;
  words: string;
  allow?: string;
}

/** What the staff side needs beside its own pages. */
const BESIDE_STAFF = ['/_next/', '/outlines/', '/mark.svg', '/favicon.ico'];
const ASKED_PAGE = 'x-fencerow-asked';

/**
 * Whether a request is for this site at all, by its method, its path and where it comes from. The public site answers
 * GET and HEAD, and programs elsewhere that first ask whether they may ask (OPTIONS, open interface). The staff side also
 * takes POST, from its own pages alone (Fetch standard, “Origin” and “Sec-Fetch-Site”): nobody can be led to send one
 * by another site.
 */
export function refusalOf(request: IncomingMessage, path: string, side: Side): Refusal | null {
  const { method = 'GET', headers } = request;
  if (method === 'GET' || method === 'HEAD') return null;
  if (side === 'public') {
    if (method === 'OPTIONS' && path.startsWith('/api/v1')) return null;
    return { status: 405, words: 'This site only answers GET and HEAD.', allow: 'GET, HEAD' };
  }
  if (method !== 'POST') {
    return { status: 405, words: 'This site only answers GET, HEAD and POST.', allow: 'GET, HEAD, POST' };
  }
  const { origin, host } = headers;
  const site = headers['sec-fetch-site'];
  const isOwn =
    origin !== undefined && hostOf(origin) === host && (site === undefined || site === 'same-origin');
  return isOwn ? null : { status: 403, words: 'This can only be sent from a page of this site.' };
}

/** The address that is answered: a page of the other site is no page here. */
export function addressFor(address: string, path: string, side: Side): string {
  const isStaff = /^\/+staff(?:\/|$)/i.test(decoded(path));
  if (side === 'public') return isStaff ? '/no-such-page' : address;
  if (path === '/') return '/staff';
  return isStaff || BESIDE_STAFF.some((beside) => path.startsWith(beside)) ? address : '/staff/no-such-page';
}

/**
 * Tells the pages of the staff side what they cannot know: which page was asked for, and from which address. What the
 * request itself claims of that is thrown away, except what a proxy of our own says last.
 *
 * @param behindProxy whether every request comes through a proxy that adds to X-Forwarded-For
 */
export function describeRequest(request: IncomingMessage, behindProxy: boolean): void {
  const forwarded = String(request.headers['x-forwarded-for'] ?? '');
  const last = forwarded.split(',').at(-1)!.trim();
  request.headers[CLIENT_ADDRESS] = (behindProxy && last) || request.socket.remoteAddress || 'unknown';
  request.headers[ASKED_PAGE] = request.url ?? '/';
}

function hostOf(origin: string): string | null {
  try {
    return new URL(origin).host;
  } catch {
    return null;
  }
}

function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}
