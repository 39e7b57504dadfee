import { releaseByNumber } from '@/db/repositories/published';
import { briefingQuery, parseBriefing, wishOf } from '@/lib/briefing/choose';
import {
  BRIEFING_MEDIA,
  type BriefingKind,
  briefingFileName,
  briefingOf,
  makeBriefing,
} from '@/lib/briefing/make-briefing';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { documentResponse, noDocument } from './document-response';
import { missingRelease } from './missing-release';
import { isUnreachable } from './or-unreachable';
import { readBriefing } from './read-briefing';

/** The briefing that an address asks for: what a release shows, and nothing else. */
export async function briefingResponse(
  request: Request,
  number: string,
  kind: BriefingKind,
): Promise<Response> {
  try {
    return await respond(new URL(request.url).searchParams, number, kind);
  } catch (error) {
    if (!isUnreachable(error)) throw error;
    return noDocument(503, 'The releases cannot be read at this moment. Try again in a minute.');
  }
}

async function respond(query: URLSearchParams, number: string, kind: BriefingKind): Promise<Response> {
  const db = publicDatabase();
  const head = /^[1-9]\d{0,8}$/.test(number) ? await releaseByNumber(db, Number(number)) : null;
  if (!head) {
    const { status, words } = await missingRelease(db, number, 'There is no such release that stands.');
    return noDocument(status, words);
  }
  const choice = parseBriefing(wishOf(query), head, regionOf(head));
  if ('problem' in choice) return noDocument(400, choice.problem);
  const numbers = await readBriefing(db, head, choice);
  const key = `${number}|${kind}|${numbers.source.kind === 'release' ? numbers.source.errata.length : 0}|${briefingQuery(choice)}`;
  const bytes = await kept(key, () => makeBriefing(briefingOf(numbers), kind));
  return documentResponse(bytes, {
    name: briefingFileName(numbers, kind),
    mediaType: BRIEFING_MEDIA[kind],
  });
}

/** The last ones, so that many readers of one briefing do not have it drawn for each. */
const made = new Map<string, Promise<Uint8Array>>();
const KEPT = 40;

function kept(key: string, make: () => Promise<Uint8Array>): Promise<Uint8Array> {
  const bytes = made.get(key) ?? make();
  made.delete(key);
  made.set(key, bytes);
  bytes.catch(() => made.delete(key));
  for (const old of made.keys()) {
    if (made.size <= KEPT) break;
    made.delete(old);
  }
  return bytes;
}
